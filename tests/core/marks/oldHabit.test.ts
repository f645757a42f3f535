import { describe, expect, test } from 'vitest';
import { placeMark } from '$core/ink/placeMark';
import type { Tool } from '$core/ink/stroke';
import { readingOf, sheetOf, SIDES, styleOf } from './sheets';

const PENS: readonly Tool[] = ['ballpoint', 'pencil', 'felt', 'faint', 'dry'];

/** Hands, targets and grains tried on each sheet; the pens take turns. */
const TRIES = 50;

const SHEETS = (['oval', 'box'] as const).flatMap((shape) => SIDES.map((side) => ({ shape, side })));

// Voters who are used to arrows draw the line that would join one: from the target over the gap to the name.
describe.each(SHEETS)(
	'a line as if to join an arrow, with targets of the shape $shape on the $side,',
	({ shape, side }) => {
		const [widthMm, heightMm] = shape === 'box' ? [4, 4] : [6.35, 3.18];
		const { places, read } = sheetOf(styleOf(shape, side, widthMm, heightMm));
		const tries = Array.from({ length: TRIES }, (_, seed) => {
			const tool = PENS[seed % PENS.length]!;
			const place = places[(seed * 7) % places.length]!;
			const strokes = placeMark('join-arrow', place.choice, { tool, shape, side, seed });
			const found = read(place.page, { strokes }, seed);
			const { contest, choice } = place.choice;
			const kinds = found.marks
				.filter((mark) => mark.contest === contest && mark.choice === choice)
				.map(({ kind }) => kind);
			return {
				tool,
				kinds,
				others: found.targets.filter(({ fill }) => fill > 0).length,
				...readingOf(place.choice, found)
			};
		});

		test('is never read as nothing: a mark of that choice, with ink in its target and in no other', () => {
			for (const { tool, kinds, fill, others } of tries) {
				expect(kinds.length, tool).toBeGreaterThan(0);
				expect(fill, tool).toBeGreaterThan(0);
				expect(others, tool).toBe(1);
			}
		});

		test('is never empty with a pen that is not faint', () => {
			expect(new Set(tries.filter(({ tool }) => tool !== 'faint').map(({ level }) => level))).not.toContain('empty');
		});

		test('is a join with at least 19 of 20 pens that do not run dry', () => {
			const wet = tries.filter(({ tool }) => tool !== 'dry');
			expect(wet.filter(({ kinds }) => kinds.includes('join')).length / wet.length).toBeGreaterThanOrEqual(0.95);
		});

		const dry = tries.filter(({ tool }) => tool === 'dry');
		if (side === 'left')
			test('is a join even with a pen that runs dry, where the name stands close by', () => {
				expect(dry.map(({ kinds }) => kinds)).toEqual(dry.map(() => ['join']));
			});
		else
			test('with a pen that runs dry on the long way to the name is a mark by hand, if not a join', () => {
				const byHand = ['join', 'stroke', 'writing', 'scribble', 'unsure'];
				for (const { kinds } of dry) expect(kinds.some((kind) => byHand.includes(kind))).toBe(true);
			});
	}
);
