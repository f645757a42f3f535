import { describe, expect, test } from 'vitest';
import type { MarkKind } from '$core/marks/mark';
import { sheetOf, SIDES, SIZES, styleOf, type Ink, type Place } from './sheets';

/** How often a pen goes to and fro in a target, and how far from its edge it turns, in points. */
const TURNS = [20, 30, 60, 100];
const MARGINS_PT = [0.3, 0.9, 1.35];

/** A target hatched all over with a pen that writes faintly. */
const faintFill = ({ choice: { target } }: Place, turns: number, marginPt: number): Ink => ({
	strokes: [
		{
			tool: 'faint',
			points: Array.from({ length: turns + 1 }, (_, turn) => [
				target.x + marginPt + ((target.width - 2 * marginPt) * turn) / turns,
				turn % 2 === 0 ? target.y + marginPt : target.y + target.height - marginPt
			])
		}
	]
});

const OVALS_AND_BOXES = SIZES.filter(([, shape]) => shape !== 'arrow').flatMap(([name, shape, widthMm, heightMm]) =>
	SIDES.map((side) => ({ name, side, style: styleOf(shape, side, widthMm, heightMm) }))
);

describe.each(OVALS_AND_BOXES)('in $name on the $side,', ({ style }) => {
	const { places, read } = sheetOf(style);

	test('a faint fill is one mark, a fill or unsure, and never a smudge or a stain, however often the pen turns', () => {
		const kinds = TURNS.flatMap((turns, row) =>
			MARGINS_PT.flatMap((marginPt, column) =>
				[0, 1, 2].map((seed): readonly MarkKind[] => {
					const place = places[(row * 7 + column * 3 + seed * 11) % places.length]!;
					return read(place.page, faintFill(place, turns, marginPt), seed).marks.map(({ kind }) => kind);
				})
			)
		);
		expect(kinds.filter((found) => found.join() !== 'fill' && found.join() !== 'unsure')).toEqual([]);
	}, 60_000);

	test('a faint fill that a finger dragged far out of its target still leaves a smudge', () => {
		for (const [seed, place] of places.slice(0, 4).entries()) {
			const { x, y, width, height } = place.choice.target;
			const { strokes } = faintFill(place, 30, 0.9);
			const smudge = { kind: 'smudge', x: x + width / 2, y: y + height / 2, dx: 30, dy: 5 } as const;
			const { marks } = read(place.page, { strokes, mishaps: [smudge] }, seed);
			expect(marks.map(({ kind }) => kind)).toContain('smudge');
		}
	}, 60_000);
});
