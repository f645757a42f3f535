import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { TargetShape } from '$core/election/election';
import { placeMark, type PlaceableMark } from '$core/ink/placeMark';
import type { Stroke, Tool } from '$core/ink/stroke';
import { creaseThrough, mm, moved, sheetOf, SIDES, SIZES, styleOf, type Place } from './sheets';

/** Every size of target on both sides of the names. */
const STYLES = SIZES.flatMap(([name, shape, widthMm, heightMm]) =>
	SIDES.map((side) => ({ name, side, style: styleOf(shape, side, widthMm, heightMm) }))
);

/** One sheet of each shape on each side. */
const SHEETS = (['oval', 'box', 'arrow'] as const satisfies readonly TargetShape[]).flatMap((shape) =>
	SIDES.map((side) => ({
		shape,
		side,
		sheet: sheetOf(styleOf(shape, side, shape === 'box' ? 4 : 6.35, shape === 'box' ? 4 : 3.18))
	}))
);

const PENS: readonly Tool[] = ['ballpoint', 'pencil', 'felt', 'faint', 'dry'];

/** Every other target takes its turn on the left, the rest on the right. */
const inTurn = (side: string) => (_: Place, at: number) => at % 2 === (side === 'left' ? 0 : 1);

/** A line 1 mm thick along the long axis: strokes of the half millimetre pencil side by side. */
function thickLine({ choice: { target } }: Place): Stroke[] {
	const middle = target.y + target.height / 2;
	return [-0.25, 0, 0.25].map((aside) => ({
		tool: 'pencil',
		points: [
			[target.x, middle + mm(aside)],
			[target.x + target.width, middle + mm(aside)]
		]
	}));
}

/** A pen put down once, with a nib of this diameter, a quarter of the way about the middle of the target. */
function dot({ choice: { target } }: Place, tool: Tool, diameterMm: number, angle: number): Stroke {
	return {
		tool,
		widthMm: diameterMm,
		points: [
			[
				target.x + target.width * (0.5 + 0.25 * Math.cos(angle)),
				target.y + target.height * (0.5 + 0.25 * Math.sin(angle))
			]
		]
	};
}

describe.each(STYLES)('in $name on the $side, every target', ({ side, style }) => {
	const { places, readTarget } = sheetOf(style);

	test('is dark with a 1 mm pencil line along its long axis (VVSG 2.0 1.1.6-H)', () => {
		const levels = places.map((place, seed) => readTarget(place, { strokes: thickLine(place) }, seed).level);
		expect(new Set(levels)).toEqual(new Set(['dark']));
	}, 60_000);

	test('is empty with a dot of 0.7 mm and never dark with one of 1.0 mm, of any pen (VVSG 2.0 1.1.6-I)', () => {
		for (const [at, place] of places.filter(inTurn(side)).entries()) {
			const pen = PENS[at % PENS.length]!;
			const [small, large] = [0.7, 1].map((diameterMm) =>
				readTarget(place, { strokes: [dot(place, pen, diameterMm, at)] }, at)
			);
			expect(small!.fill, pen).toBeGreaterThan(0);
			expect(small!.level, pen).toBe('empty');
			expect(large!.fill, pen).toBeGreaterThan(small!.fill);
			expect(large!.level, pen).not.toBe('dark');
		}
	}, 60_000);

	test('is empty with a crease through it, along the page or down it (VVSG 2.0 1.1.6-I)', () => {
		for (const [at, place] of places.filter(inTurn(side)).entries())
			for (const along of ['x', 'y'] as const) {
				const crease = creaseThrough(place, along, [0.3, 0.5, 0.7][at % 3]!);
				const reading = readTarget(place, { strokes: [], mishaps: [crease] }, at);
				expect(reading.fill, along).toBeGreaterThan(0);
				expect(reading.level, along).toBe('empty');
			}
	}, 60_000);
});

describe.each(SHEETS)('of the $shape on the $side', ({ shape, side, sheet: { places, readTarget } }) => {
	// Each pen with another mark, each mark with a pen, so that all are tried on every sheet.
	test.each([
		['fill', 'felt'],
		['check', 'ballpoint'],
		['cross', 'dry'],
		['partial', 'faint'],
		['light', 'faint'],
		['dot', 'felt'],
		['fill', 'pencil']
	] as const)(
		'a %s with the %s has the same level in every target of every page (VVSG 2.0 1.1.6-J)',
		(kind, tool) => {
			// One stroke pattern, carried from target to target by whole pixels.
			const [first] = places as [Place];
			const pattern = placeMark(kind, first.choice, { tool, shape, side, seed: 7 });
			const readings = places.map((place) => {
				const dx = place.choice.target.x - first.choice.target.x;
				const dy = place.choice.target.y - first.choice.target.y;
				return readTarget(place, { strokes: moved(pattern, (x, y) => [x + dx, y + dy]) });
			});
			expect(readings[0]!.fill).toBeGreaterThan(0);
			expect(new Set(readings.map(({ level }) => level)).size).toBe(1);
		},
		60_000
	);
});

test('no mark goes from dark to empty when it is moved by 0.25 mm, scaled by 2 % or drawn with other grain, in any target of any shape (VVSG 2.0 1.1.6-K)', () => {
	const levelsSeen = new Set<string>();
	fc.assert(
		fc.property(
			fc.constantFrom(...SHEETS).chain(({ shape, side, sheet }) =>
				fc.record({
					shape: fc.constant(shape),
					side: fc.constant(side),
					sheet: fc.constant(sheet),
					place: fc.constantFrom(...sheet.places)
				})
			),
			fc.constantFrom<PlaceableMark>('fill', 'check', 'cross', 'dot', 'light', 'partial', 'join-arrow'),
			fc.constantFrom(...PENS),
			fc.nat(500),
			fc.record({
				dx: fc.double({ min: -0.25, max: 0.25, noNaN: true }),
				dy: fc.double({ min: -0.25, max: 0.25, noNaN: true }),
				scale: fc.double({ min: 0.98, max: 1.02, noNaN: true }),
				grain: fc.nat(9),
				nibMm: fc.double({ min: 0.2, max: 1.2, noNaN: true })
			}),
			({ shape, side, sheet, place }, kind, tool, seed, { dx, dy, scale, grain, nibMm }) => {
				const { target } = place.choice;
				const [middleX, middleY] = [target.x + target.width / 2, target.y + target.height / 2];
				// Nibs of all widths give every score between the levels its turn.
				const pattern = placeMark(kind, place.choice, { tool, shape, side, seed }).map((stroke) => ({
					...stroke,
					widthMm: nibMm
				}));
				const again = moved(pattern, (x, y) => [
					middleX + (x - middleX) * scale + mm(dx),
					middleY + (y - middleY) * scale + mm(dy)
				]);
				const levels = [
					sheet.readTarget(place, { strokes: pattern }).level,
					sheet.readTarget(place, { strokes: again }, grain).level
				];
				for (const level of levels) levelsSeen.add(`${shape} ${level}`);
				expect(levels.includes('dark') && levels.includes('empty')).toBe(false);
			}
		),
		{ numRuns: 300 }
	);
	// All three levels were tried on each shape, so there was something to flip between.
	expect(levelsSeen.size).toBe(9);
}, 120_000);
