import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { county } from '$core/election/demo';
import type { TargetStyle } from '$core/election/election';
import { PT_PER_MM } from '$core/image';
import { placeMark } from '$core/ink/placeMark';
import type { PageInk, Stroke, StrokePoint, Tool } from '$core/ink/stroke';
import type { ChoiceLayout } from '$core/layout/layout';
import { layOut } from '$core/layout/layOutBallot';
import { findMarks } from '$core/marks/findMarks';
import type { PageMarks } from '$core/marks/mark';
import { inkPage } from '$core/page/inkPage';
import { printPage } from '$core/page/printPage';
import en from '$locales/en.json';

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

const mm = (value: number): number => value * PT_PER_MM;

/** Sizes of published and measured targets, in millimetres; the circle of 3.53 mm is NIST's own 10 pt prototype. */
const SIZES: readonly (readonly [name: string, shape: TargetStyle['shape'], widthMm: number, heightMm: number])[] = [
	['a circle of 3.0 mm', 'oval', 3, 3],
	['a circle of 3.53 mm', 'oval', 3.53, 3.53],
	['an oval of 4.83 x 3.18 mm', 'oval', 4.83, 3.18],
	['an oval of 6.35 x 3.18 mm', 'oval', 6.35, 3.18],
	['an oval of 6.35 x 4.06 mm', 'oval', 6.35, 4.06],
	['an oval of 7.62 x 4.06 mm', 'oval', 7.62, 4.06],
	['a box of 4 x 4 mm', 'box', 4, 4],
	['a box of 6.35 x 3.18 mm', 'box', 6.35, 3.18],
	['the gap of an arrow', 'arrow', 6.35, 3.18]
];

const styleOf = (shape: TargetStyle['shape'], widthMm: number, heightMm: number): TargetStyle => ({
	shape,
	side: 'left',
	widthPt: mm(widthMm),
	heightPt: mm(heightMm)
});

/** A line 1 mm thick along the long axis: strokes of the half millimetre pencil side by side. */
function thickLine({ target }: ChoiceLayout, tool: Tool = 'pencil'): Stroke[] {
	const middle = target.y + target.height / 2;
	return [-0.25, 0, 0.25].map((aside) => ({
		tool,
		points: [
			[target.x, middle + mm(aside)],
			[target.x + target.width, middle + mm(aside)]
		]
	}));
}

/** A dot of this diameter, turned round with a ballpoint. */
function dot({ target }: ChoiceLayout, diameterMm: number): Stroke[] {
	const radius = Math.max(0, mm(diameterMm - 0.5) / 2);
	const x = target.x + target.width / 2;
	const y = target.y + target.height / 2;
	const points = Array.from({ length: 17 }, (_, i): StrokePoint => [
		x + radius * Math.cos((i / 8) * Math.PI),
		y + radius * Math.sin((i / 8) * Math.PI)
	]);
	return [{ tool: 'ballpoint', points: [...points, [x, y]] }];
}

describe.each(SIZES)('%s', (_, shape, widthMm, heightMm) => {
	const { layout, read, levelAt } = sheetOf(styleOf(shape, widthMm, heightMm));
	const choices = layout.pages[0]!.choices;

	test('is dark with a 1 mm pencil line along its long axis (VVSG 2.0 1.1.6-H)', () => {
		for (const choice of choices.slice(0, 6)) expect(levelAt(choice, read(thickLine(choice))).level).toBe('dark');
	});

	test('is never dark with a dot of 0.7 or 1.0 mm (VVSG 2.0 1.1.6-I)', () => {
		for (const diameterMm of [0.7, 1])
			for (const choice of choices.slice(0, 6))
				expect(levelAt(choice, read(dot(choice, diameterMm))).level).not.toBe('dark');
	});

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

describe('the same mark', () => {
	const { layout, read, levelAt } = sheetOf(county.target);

	test.each(['fill', 'check', 'cross', 'light', 'partial'] as const)(
		'a %s has the same level in every target of every page (VVSG 2.0 1.1.6-J)',
		(kind) => {
			const scores = layout.pages.flatMap(({ page, choices }) => {
				// One stroke pattern, carried from target to target by whole pixels.
				const first = choices[0]!;
				const pattern = placeMark(kind, first, { tool: 'pencil', shape: layout.shape, side: layout.side, seed: 5 });
				return choices.map((choice) => {
					const dx = choice.target.x - first.target.x;
					const dy = choice.target.y - first.target.y;
					const moved = pattern.map((stroke) => ({
						...stroke,
						points: stroke.points.map(([x, y]): StrokePoint => [x + dx, y + dy])
					}));
					return levelAt(choice, read(moved, page)).level;
				});
			});
			expect(new Set(scores).size).toBe(1);
		},
		120_000
	);

	test('never goes from dark to empty when it is moved by 0.25 mm, scaled by 2 % or drawn with other grain (VVSG 2.0 1.1.6-K)', () => {
		const choice = layout.pages[0]!.choices[3]!;
		const { target } = choice;
		const centre = { x: target.x + target.width / 2, y: target.y + target.height / 2 };
		fc.assert(
			fc.property(
				fc.constantFrom('fill', 'check', 'cross', 'dot', 'light', 'partial'),
				fc.constantFrom<Tool>('ballpoint', 'pencil', 'felt', 'faint'),
				fc.nat(500),
				fc.record({
					dx: fc.double({ min: -0.25, max: 0.25, noNaN: true }),
					dy: fc.double({ min: -0.25, max: 0.25, noNaN: true }),
					scale: fc.double({ min: 0.98, max: 1.02, noNaN: true }),
					grain: fc.nat(9)
				}),
				(kind, tool, seed, { dx, dy, scale, grain }) => {
					const pattern = placeMark(kind, choice, { tool, shape: layout.shape, side: layout.side, seed });
					const moved = pattern.map((stroke) => ({
						...stroke,
						points: stroke.points.map(([x, y]): StrokePoint => [
							centre.x + (x - centre.x) * scale + mm(dx),
							centre.y + (y - centre.y) * scale + mm(dy)
						])
					}));
					const levels = [levelAt(choice, read(pattern)).level, levelAt(choice, read(moved, 1, grain)).level];
					expect(levels.includes('dark') && levels.includes('empty')).toBe(false);
				}
			),
			{ numRuns: 60, seed: 20270914 }
		);
	}, 120_000);
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
