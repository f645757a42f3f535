import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { county } from '$core/election/demo';
import type { TargetStyle } from '$core/election/election';
import { placeMark } from '$core/ink/placeMark';
import type { PageInk, Stroke, Tool } from '$core/ink/stroke';
import type { ChoiceLayout } from '$core/layout/layout';
import { layOut } from '$core/layout/layOutBallot';
import { findMarks } from '$core/marks/findMarks';
import type { PageMarks } from '$core/marks/mark';
import { inkPage } from '$core/page/inkPage';
import { printPage } from '$core/page/printPage';
import en from '$locales/en.json';
import { SIZES, styleOf } from './sheets';

/** A sheet with targets of one style, and a way to read ink on its first page. */
function sheetOf(target: TargetStyle) {
	const layout = layOut({ ...county, target }, county.styles[2]!.id, { en: en.layout }, ['en']);
	const prints = layout.pages.map(({ page }) => printPage(layout, page));
	const read = (strokes: readonly Stroke[], page = 1, seed = 0): PageMarks => {
		const anchors = layout.pages[page - 1]!.choices.map((choice) => choice.target);
		const image = inkPage(prints[page - 1]!, { page, strokes }, anchors, undefined, { seed });
		return findMarks(image, prints[page - 1]!, layout, page, { thresholds: county.thresholds });
	};
	const levelAt = ({ contest, choice }: ChoiceLayout, found: PageMarks) =>
		found.targets.find((one) => one.contest === contest && one.choice === choice)!;
	return { layout, read, levelAt };
}

describe.each(SIZES)('%s', (_, shape, widthMm, heightMm) => {
	const { layout, read } = sheetOf(styleOf(shape, 'left', widthMm, heightMm));
	const choices = layout.pages[0]!.choices;

	test('is never dark with a crease across it (VVSG 2.0 1.1.6-I)', () => {
		const { target } = choices[2]!;
		for (const at of [0.3, 0.5, 0.7]) {
			const print = printPage(layout, 1);
			const crease = { kind: 'fold', at: target.y + target.height * at, along: 'x' } as const;
			const image = inkPage(
				print,
				{ page: 1, strokes: [], mishaps: [crease] },
				choices.map((one) => one.target)
			);
			const found = findMarks(image, print, layout, 1, { thresholds: county.thresholds });
			expect(found.targets.filter(({ level }) => level === 'dark')).toEqual([]);
		}
	});

	test('reads a clean sheet as empty, with no marks', () => {
		const found = read([]);
		expect(found.marks).toEqual([]);
		expect(found.targets.every(({ fill, level }) => fill === 0 && level === 'empty')).toBe(true);
	});
});

describe('a mark', () => {
	const { layout, read, levelAt } = sheetOf(county.target);
	const choice = layout.pages[0]!.choices[1]!;
	const place = (kind: Parameters<typeof placeMark>[0], tool: Tool = 'ballpoint') =>
		placeMark(kind, choice, { tool, shape: layout.shape, side: layout.side, seed: 11 });

	test.each([
		['fill', 'fill', 'in-target'],
		['check', 'check', 'in-target'],
		['cross', 'cross', 'in-target'],
		['circle-name', 'ring', 'on-name'],
		['underline-name', 'underline', 'on-name'],
		['strike-name', 'strike', 'on-name'],
		['join-arrow', 'join', 'in-target']
	] as const)('%s is found as %s, %s, and belongs to its choice', (kind, found, where) => {
		const { marks } = read(place(kind));
		expect(marks).toHaveLength(1);
		expect(marks[0]).toMatchObject({ kind: found, place: where, contest: choice.contest, choice: choice.choice });
	});

	test.each([35, 55, 75])(
		'that runs through a name at %d degrees and comes out on both sides strikes it',
		(degrees) => {
			const { x, y, width, height } = choice.name;
			const middle = { x: x + Math.min(width / 2, 30), y: y + height / 2 };
			for (const tall of [1.2, 1.6, 2.2]) {
				const half = (tall * height) / 2;
				const slant = half / Math.tan((degrees * Math.PI) / 180);
				const points = Array.from({ length: 21 }, (_, i): [number, number, number] => {
					const along = (i - 10) / 10;
					return [middle.x + slant * along, middle.y - half * along, i * 15];
				});
				const { marks } = read([{ tool: 'ballpoint', points }]);
				expect(marks, `${tall} times as tall as the name`).toHaveLength(1);
				expect(marks[0]).toMatchObject({ kind: 'strike', place: 'on-name', choice: choice.choice });
			}
		}
	);

	test('that is added never lowers the fill of a target', () => {
		fc.assert(
			fc.property(
				fc.constantFrom('check', 'cross', 'dot', 'light'),
				fc.constantFrom('fill', 'partial', 'check'),
				(a, b) => {
					const before = levelAt(choice, read(place(a))).fill;
					expect(levelAt(choice, read([...place(a), ...place(b)])).fill).toBeGreaterThanOrEqual(before - 1e-9);
				}
			),
			{ numRuns: 12 }
		);
	});
});

describe('a crease', () => {
	const { layout, read } = sheetOf(county.target);
	const kinds = (strokes: readonly Stroke[], mishaps: PageInk['mishaps'] = []) => {
		const anchors = layout.pages[0]!.choices.map((choice) => choice.target);
		const print = printPage(layout, 1);
		const image = inkPage(print, { page: 1, strokes, mishaps }, anchors);
		return findMarks(image, print, layout, 1, { thresholds: county.thresholds }).marks.map(({ kind }) => kind);
	};
	const y = layout.pages[0]!.choices[3]!.name.y;
	const line = (tool: Tool, from: number, to: number): Stroke => ({
		tool,
		points: Array.from({ length: 20 }, (_, i) => [from + ((to - from) * i) / 19, y + 0.4 * Math.sin(i)])
	});

	test('is not made of two pale lines through names that lie level in two columns', () => {
		const lines = [line('faint', 70, 240), line('pencil', 316, 424)];
		expect(kinds(lines)).not.toContain('fold');
		expect(kinds(lines)).toHaveLength(2);
		expect(read(lines).marks).toHaveLength(2);
	});

	test('runs from edge to edge, anywhere on the sheet', () => {
		for (const at of [200, 264, 351.5, 528, 640])
			expect(kinds([], [{ kind: 'fold', at, along: 'x' }]), String(at)).toContain('fold');
		for (const at of [150, 306, 470])
			expect(kinds([], [{ kind: 'fold', at, along: 'y' }]), String(at)).toContain('fold');
	});
});
