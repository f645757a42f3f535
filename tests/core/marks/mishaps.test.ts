import { describe, expect, test } from 'vitest';
import type { TargetShape } from '$core/election/election';
import { placeMark, type PlaceableMark } from '$core/ink/placeMark';
import type { Mishap, Tool } from '$core/ink/stroke';
import type { Mark, MarkKind, PageMarks } from '$core/marks/mark';
import { creaseThrough, readingOf, sheetOf, SIDES, styleOf, type Ink, type Place } from './sheets';

const SHAPES: readonly TargetShape[] = ['oval', 'box', 'arrow'];

/** What happens to a sheet, as against what a voter draws on it. */
const MISHAP_KINDS: ReadonlySet<MarkKind> = new Set(['stain', 'smudge', 'erasure', 'fold']);

/** Sheets, places and hands tried for each mishap. */
const TRIES = 12;

const byHand = ({ marks }: PageMarks): readonly Mark[] => marks.filter(({ kind }) => !MISHAP_KINDS.has(kind));

const kindsOf = ({ marks }: PageMarks): readonly MarkKind[] => marks.map(({ kind }) => kind);

const middleOf = ({ choice: { target } }: Place): readonly [x: number, y: number] => [
	target.x + target.width / 2,
	target.y + target.height / 2
];

describe.each(SHAPES.flatMap((shape) => SIDES.map((side) => ({ shape, side }))))(
	'on a sheet with targets of the shape $shape on the $side,',
	({ shape, side }) => {
		const [widthMm, heightMm] = shape === 'box' ? [4, 4] : [6.35, 3.18];
		const { places, read } = sheetOf(styleOf(shape, side, widthMm, heightMm));

		/** The same mishap at targets all over the sheet, each with another hand and other grain. */
		const findAll = (inkAt: (place: Place, seed: number) => Ink) =>
			Array.from({ length: TRIES }, (_, seed) => {
				const place = places[(seed * 11 + 3) % places.length]!;
				const found = read(place.page, inkAt(place, seed), seed);
				return { found, level: readingOf(place.choice, found).level };
			});

		test('a coffee stain over a target is a stain, drawn by nobody, and leaves every target empty', () => {
			const all = findAll((place, seed) => {
				const [x, y] = middleOf(place);
				const [aside, below] = [20 * (seed % 3) - 20, 10 * (seed % 4) - 15];
				const radiusPt = 20 + 8 * (seed % 5);
				return { strokes: [], mishaps: [{ kind: 'stain', x: x + aside, y: y + below, radiusPt, seed }] };
			});
			for (const { found } of all) {
				expect(kindsOf(found)).toContain('stain');
				expect(byHand(found)).toEqual([]);
				expect(found.targets.filter(({ level }) => level !== 'empty')).toEqual([]);
			}
		});

		test.each([
			['along', 'x'],
			['down', 'y']
		] as const)(
			'a crease %s the page through a target is one fold, no mark by hand at a choice, and leaves every target empty (VVSG 2.0 1.1.6-I)',
			(_, along) => {
				const all = findAll((place, seed) => ({
					strokes: [],
					mishaps: [creaseThrough(place, along, 0.3 + 0.1 * (seed % 5))]
				}));
				for (const { found } of all) {
					expect(kindsOf(found).filter((kind) => kind === 'fold')).toHaveLength(1);
					expect(byHand(found).filter(({ choice }) => choice !== undefined)).toEqual([]);
					expect(found.targets.filter(({ level }) => level !== 'empty')).toEqual([]);
				}
			}
		);

		test('a finger dragged over a filled target leaves it dark, filled once, and no other target dark', () => {
			const pens: readonly Tool[] = ['pencil', 'ballpoint', 'felt'];
			const all = findAll((place, seed) => {
				const [x, y] = middleOf(place);
				const tool = pens[seed % pens.length]!;
				const smudge: Mishap = { kind: 'smudge', x, y, dx: 30 * Math.cos(seed), dy: 14 * Math.sin(seed) };
				return { strokes: placeMark('fill', place.choice, { tool, shape, side, seed }), mishaps: [smudge] };
			});
			for (const { found, level } of all) {
				expect(level).toBe('dark');
				expect(found.targets.filter((target) => target.level === 'dark')).toHaveLength(1);
				expect(byHand(found).map(({ kind }) => kind)).toEqual([shape === 'arrow' ? 'join' : 'fill']);
			}
			// A wide smear that has come off its mark is sometimes called a stain.
			const named = all.filter(({ found }) => kindsOf(found).includes('smudge')).length;
			expect(named / TRIES).toBeGreaterThanOrEqual(0.75);
		});

		const throughThePaper = (kind: PlaceableMark) =>
			findAll((place, seed) => ({
				strokes: [],
				mishaps: [{ kind: 'bleed', strokes: placeMark(kind, place.choice, { tool: 'felt', shape, side, seed }) }]
			}));

		test('a target filled on the other side is seen, but never makes a target dark (VVSG 2.0 3.1.6)', () => {
			for (const { found } of throughThePaper('fill')) {
				expect(found.marks.length).toBeGreaterThan(0);
				expect(found.targets.filter(({ level }) => level === 'dark')).toEqual([]);
			}
		});

		// The reader has no kind of its own for it: a soft edge makes it a smear, its breadth a stain.
		test.each(['check', 'cross', 'dot', 'ring', 'strike-name', 'join-arrow'] as const)(
			'a %s on the other side is seen, drawn by nobody, and never makes a target dark (VVSG 2.0 3.1.6)',
			(kind) => {
				for (const { found } of throughThePaper(kind)) {
					expect(found.marks.length).toBeGreaterThan(0);
					expect(byHand(found)).toEqual([]);
					expect(found.targets.filter(({ level }) => level === 'dark')).toEqual([]);
				}
			}
		);
	}
);
