import { describe, expect, it } from 'vitest';
import { overlaps, type Box } from '$core/geometry';
import type { TargetShape, TargetSide } from '$core/election/election';
import { PX_PER_PT, type GreyImage } from '$core/image';
import { checkInk } from '$core/ink/checkInk';
import { placeMark, PLACEABLE_MARKS, type PlaceableMark } from '$core/ink/placeMark';
import type { Stroke, Tool } from '$core/ink/stroke';
import type { ChoiceLayout } from '$core/layout/layout';
import { inkPage } from '$core/page/inkPage';

/** A row with its target on a side of the name; 22 pt high as rows are at least. */
function choiceAt(x: number, y: number, side: TargetSide, target = { width: 18, height: 9 }): ChoiceLayout {
	const nameX = side === 'left' ? x + target.width + 10 : x;
	const targetX = side === 'left' ? x : x + 160;
	const row = { x, y, width: 200, height: 22 };
	return {
		contest: 'c',
		choice: 'a',
		row,
		target: { x: targetX, y: y + (22 - target.height) / 2, ...target },
		name: { x: nameX, y: y + 4, width: 100, height: 14 },
		writeIn: { x: nameX + 60, y, width: 90, height: 19 }
	};
}

const options = (tool: Tool = 'ballpoint', shape: TargetShape = 'oval', side: TargetSide = 'left', seed = 1) => ({
	tool,
	shape,
	side,
	seed
});

function boxOf(strokes: readonly Stroke[]): Box {
	const points = strokes.flatMap((stroke) => stroke.points);
	const xs = points.map(([x]) => x);
	const ys = points.map(([, y]) => y);
	const [x, y] = [Math.min(...xs), Math.min(...ys)];
	return { x, y, width: Math.max(...xs) - x + 0.01, height: Math.max(...ys) - y + 0.01 };
}

const SIDES = ['left', 'right'] as const;
const blank: GreyImage = { width: 900, height: 300, data: new Uint8Array(900 * 300).fill(250) };

/** Share of the inside of an oval, half a line in from its box, that is darker than `grey`. */
function shareInside(strokes: readonly Stroke[], { target }: ChoiceLayout, grey: number): number {
	const { data } = inkPage(blank, { page: 1, strokes }, [target]);
	let [inside, dark] = [0, 0];
	for (let y = 0; y < blank.height; y++)
		for (let x = 0; x < blank.width; x++) {
			const u = ((x + 0.5) / PX_PER_PT - target.x - target.width / 2) / (target.width / 2 - 1);
			const v = ((y + 0.5) / PX_PER_PT - target.y - target.height / 2) / (target.height / 2 - 1);
			if (u * u + v * v > 1) continue;
			inside += 1;
			if (data[y * blank.width + x]! < grey) dark += 1;
		}
	return dark / inside;
}

describe('a placed mark', () => {
	const all = PLACEABLE_MARKS.flatMap((kind) =>
		(['oval', 'box', 'arrow'] as const).flatMap((shape) => SIDES.map((side) => [kind, shape, side] as const))
	);

	it.each(all)(
		'%s at an %s on the %s is ink that passes the check, with times that rise from 0',
		(kind, shape, side) => {
			for (let seed = 0; seed < 5; seed++) {
				const strokes = placeMark(kind, choiceAt(60, 50, side), options('pencil', shape, side, seed));
				expect(strokes.length).toBeGreaterThan(0);
				expect(checkInk({ page: 1, strokes }).problem).toBeUndefined();
				for (const { points } of strokes) {
					const times = points.map(([, , t]) => t!);
					expect(times[0]).toBe(0);
					expect(times).toEqual([...times].sort((a, b) => a - b));
				}
				// No slower than a person would be.
				expect(strokes.reduce((ms, { points }) => ms + points.at(-1)![2]!, 0)).toBeLessThan(6000);
			}
		}
	);

	it.each(all)('%s at an %s on the %s stays off the rows above and below', (kind, shape, side) => {
		for (let seed = 0; seed < 20; seed++) {
			const { y, height } = boxOf(placeMark(kind, choiceAt(60, 50, side), options('pencil', shape, side, seed)));
			expect(y).toBeGreaterThan(50 - 6);
			expect(y + height).toBeLessThan(72 + 6);
		}
	});

	it('is the same for the same seed, another hand for another, and moves with its row', () => {
		for (const kind of PLACEABLE_MARKS) {
			const here = placeMark(kind, choiceAt(60, 50, 'left'), options());
			expect(placeMark(kind, choiceAt(60, 50, 'left'), options())).toEqual(here);
			expect(placeMark(kind, choiceAt(60, 50, 'left'), options('ballpoint', 'oval', 'left', 2))).not.toEqual(here);
			const there = placeMark(kind, choiceAt(90, 150, 'left'), options());
			expect(there.length).toBe(here.length);
			for (const [i, stroke] of there.entries())
				for (const [j, [x, y]] of stroke.points.entries()) {
					expect(x - here[i]!.points[j]![0]).toBeCloseTo(30, 1);
					expect(y - here[i]!.points[j]![1]).toBeCloseTo(100, 1);
				}
		}
	});
});

describe('where marks go', () => {
	const inTarget: readonly PlaceableMark[] = [
		'fill',
		'partial',
		'light',
		'check',
		'cross',
		'dot',
		'ring',
		'erase',
		'cross-out'
	];
	const onName: readonly PlaceableMark[] = ['circle-name', 'strike-name', 'cross-out'];

	it.each(SIDES)('in the target, on the name or beside them, with targets on the %s', (side) => {
		for (let seed = 0; seed < 10; seed++) {
			const choice = choiceAt(60, 50, side);
			const { target, name, writeIn } = choice;
			for (const kind of PLACEABLE_MARKS) {
				const box = boxOf(placeMark(kind, choice, options('ballpoint', 'oval', side, seed)));
				if (inTarget.includes(kind)) expect(overlaps(box, target), kind).toBe(true);
				if (onName.includes(kind)) expect(overlaps(box, name), kind).toBe(true);
				if (['circle-name', 'strike-name', 'underline-name', 'after-name', 'beside', 'write-in'].includes(kind))
					expect(overlaps(box, target), kind).toBe(false);
				if (['fill', 'dot', 'ring', 'check', 'cross', 'join-arrow', 'beside', 'after-name'].includes(kind))
					expect(overlaps(box, name), kind).toBe(false);
				if (kind === 'write-in') {
					expect(box.x).toBeGreaterThanOrEqual(writeIn!.x);
					expect(box.x + box.width).toBeLessThanOrEqual(writeIn!.x + writeIn!.width + 2);
				}
				if (kind === 'underline-name') expect(box.y).toBeGreaterThan(name.y + name.height - 1);
				if (kind === 'after-name') expect(box.x).toBeGreaterThan(name.x + name.width);
			}
		}
	});

	it('the old habit reaches from inside the oval nearly to the name', () => {
		for (const side of SIDES) {
			const choice = choiceAt(60, 50, side);
			const { target, name } = choice;
			const { x, width } = boxOf(placeMark('join-arrow', choice, options('ballpoint', 'oval', side)));
			const gap = side === 'left' ? [target.x + target.width, name.x - 2.5] : [name.x + name.width + 2.5, target.x];
			expect(x).toBeLessThan(gap[0]!);
			expect(x + width).toBeGreaterThan(gap[1]!);
		}
	});

	it('joining an arrow closes its gap from end to end', () => {
		const choice = choiceAt(60, 50, 'left', { width: 24, height: 9 });
		const { x, width } = boxOf(placeMark('join-arrow', choice, options('felt', 'arrow')));
		expect(x).toBeLessThan(choice.target.x);
		expect(x + width).toBeGreaterThan(choice.target.x + 24);
	});

	it('nothing is written where there is no line', () => {
		const { contest, choice, row, target, name } = choiceAt(60, 50, 'left');
		expect(placeMark('write-in', { contest, choice, row, target, name }, options())).toEqual([]);
	});
});

describe('how much of an oval is covered', () => {
	const choice = choiceAt(60, 50, 'left');
	it('by a fill: nearly all, in every pen; by half a fill, about half', () => {
		for (const tool of ['ballpoint', 'pencil', 'felt'] as const)
			for (let seed = 0; seed < 8; seed++) {
				expect(
					shareInside(placeMark('fill', choice, options(tool, 'oval', 'left', seed)), choice, 190)
				).toBeGreaterThan(0.9);
				const half = shareInside(placeMark('partial', choice, options(tool, 'oval', 'left', seed)), choice, 190);
				expect(half).toBeGreaterThan(0.3);
				expect(half).toBeLessThan(0.65);
			}
	});

	it('by light lines: some of it, and not dark', () => {
		const strokes = placeMark('light', choice, options());
		expect(shareInside(strokes, choice, 120)).toBe(0);
		expect(shareInside(strokes, choice, 225)).toBeGreaterThan(0.1);
	});

	it('by an eraser: all of it, so that nothing of a pencil fill stays dark', () => {
		const strokes = [...placeMark('fill', choice, options('pencil')), ...placeMark('erase', choice, options())];
		expect(shareInside(strokes, choice, 190)).toBe(0);
	});
});
