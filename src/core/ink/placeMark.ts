import type { TargetShape, TargetSide } from '../election/election';
import type { Box } from '../geometry';
import { PT_PER_MM } from '../image';
import type { ChoiceLayout } from '../layout/layout';
import { randomFrom } from '../random';
import { fillTarget } from './fillTarget';
import { handStroke, type Hand } from './handStroke';
import { NIB_MM, type Stroke, type Tool } from './stroke';
import { writeSquiggle } from './writeSquiggle';

/** Marks that can be placed without drawing them. */
export const PLACEABLE_MARKS = [
	'fill',
	'light',
	'partial',
	'check',
	'cross',
	'dot',
	'ring',
	'circle-name',
	'underline-name',
	'cross-out',
	'strike-name',
	'join-arrow',
	'after-name',
	'beside',
	'write-in',
	'erase'
] as const;
export type PlaceableMark = (typeof PLACEABLE_MARKS)[number];

export interface PlaceOptions {
	/** What the mark is made with; `light` is always made with the faint pen, `erase` with the eraser. */
	readonly tool: Tool;
	readonly shape: TargetShape;
	/** The side of the name on which the targets are. */
	readonly side: TargetSide;
	/** Another seed is another person's hand. Default 1. */
	readonly seed?: number;
}

/**
 * The strokes of a mark at a choice, as a hand would draw them, in points on the page and with times. The
 * same seed gives the same strokes, moved, at every target of one size. `write-in` gives no strokes on a
 * row without a write-in line. On an arrow ballot `fill` and `partial` draw the line that joins the arrow,
 * whole or half-way. All shapes and sizes were found by trial.
 */
export function placeMark(kind: PlaceableMark, choice: ChoiceLayout, options: PlaceOptions): Stroke[] {
	const { tool, shape, side, seed = 1 } = options;
	const { target, name, writeIn } = choice;
	const hand: Hand = { tool, random: randomFrom(seed), wobblePt: 0.45, speedPtPerMs: 0.16 };
	const nibPt = NIB_MM[tool] * PT_PER_MM;
	switch (kind) {
		case 'fill':
			return shape === 'arrow' ? joinGap(hand, target, 1) : fillTarget(hand, target, shape, nibPt, 'whole');
		case 'partial':
			return shape === 'arrow' ? joinGap(hand, target, 0.5) : fillTarget(hand, target, shape, nibPt, 'half');
		case 'light':
			return lightLines({ ...hand, tool: 'faint' }, target);
		case 'check':
			return [check(hand, middleX(target), middleY(target), target.height)];
		case 'cross':
			return cross(hand, target);
		case 'dot':
			return [{ tool, points: [[middleX(target) + 0.7 * (hand.random() - 0.5), middleY(target), 0]] }];
		case 'ring':
			return [ring(hand, target, 4, 3.6)];
		case 'circle-name':
			return [ring(hand, name, 5.5, 3.2)];
		case 'underline-name':
			return [lineAcross(hand, name.x - 2, name.x + name.width + 3, name.y + name.height + 1.2)];
		case 'cross-out':
			return linesThrough(hand, name).map((y, line) =>
				line === 0
					? lineAcross(hand, Math.min(target.x, name.x) - 4, rightOf(target, name) + 4, y, middleY(target), side)
					: lineAcross(hand, name.x - 3, name.x + name.width + 3, y)
			);
		case 'strike-name':
			return linesThrough(hand, name).map((y) => lineAcross(hand, name.x - 3, name.x + name.width + 4, y));
		case 'join-arrow':
			return shape === 'arrow' ? joinGap(hand, target, 1) : [oldHabit(hand, target, name, side)];
		case 'after-name':
			return [check(hand, behindName(choice, side), middleY(name), 10)];
		case 'beside':
			return [check(hand, side === 'left' ? target.x - 8 : target.x + target.width + 8, middleY(target), 8)];
		case 'write-in':
			return writeIn ? writeSquiggle(hand, writeIn) : [];
		case 'erase':
			return [rub({ ...hand, tool: 'eraser' }, target)];
	}
}

const middleX = ({ x, width }: Box): number => x + width / 2;
const middleY = ({ y, height }: Box): number => y + height / 2;
const rightOf = (a: Box, b: Box): number => Math.max(a.x + a.width, b.x + b.width);

/** Joins a broken arrow, going over the line once more; `share` of the gap. */
function joinGap(hand: Hand, { x, y, width, height }: Box, share: number): Stroke[] {
	const middle = y + height / 2;
	const right = x + width * share + (share === 1 ? 2 : 0);
	const there = handStroke({ ...hand, wobblePt: 0.4 }, [
		[x - 2, middle - 0.4],
		[right, middle + 0.3]
	]);
	const back = handStroke({ ...hand, wobblePt: 0.4 }, [
		[right - 0.6, middle + 0.9],
		[x - 1.2, middle + 0.5]
	]);
	return [there, back];
}

/** A few lines of a timid hand. */
function lightLines(hand: Hand, { x, y, width, height }: Box): Stroke[] {
	return [0.3, 0.5, 0.7].map((share) => {
		const at = x + width * share;
		return handStroke(hand, [
			[at - height * 0.2, y + height * 0.8],
			[at + height * 0.25, y + height * 0.22]
		]);
	});
}

function check(hand: Hand, x: number, y: number, heightPt: number): Stroke {
	const unit = heightPt;
	return handStroke(hand, [
		[x - unit * 0.5, y - unit * 0.05],
		[x - unit * 0.12, y + unit * 0.42],
		[x + unit * 0.12, y - unit * 0.1],
		[x + unit * 0.75, y - unit * 0.85]
	]);
}

function cross(hand: Hand, target: Box): Stroke[] {
	const [x, y] = [middleX(target), middleY(target)];
	const across = Math.min(target.width * 0.42, target.height * 0.85);
	const up = target.height * 0.62;
	return [
		handStroke(hand, [
			[x - across, y - up],
			[x + across, y + up]
		]),
		handStroke(hand, [
			[x + across * 0.95, y - up],
			[x - across * 1.05, y + up * 0.95]
		])
	];
}

/** Corners of the loop drawn around a box. */
const RING_CORNERS = 26;

/** A loop around a box, squarer than an ellipse so that it clears the corners, closed past its start. */
function ring(hand: Hand, box: Box, asidePt: number, abovePt: number): Stroke {
	const [x, y] = [middleX(box), middleY(box)];
	const across = box.width / 2 + asidePt;
	const up = box.height / 2 + abovePt;
	const squareness = box.width > 3 * box.height ? 0.55 : 0.8;
	const start = -2 + 0.5 * hand.random();
	return handStroke(
		hand,
		Array.from({ length: RING_CORNERS + 2 }, (_, i) => {
			const angle = start - (2 * Math.PI * i) / RING_CORNERS;
			const drift = 1 + 0.012 * (i - RING_CORNERS / 2) * (i > RING_CORNERS / 2 ? 0.5 : 0);
			return [x + across * drift * bent(Math.cos(angle), squareness), y + up * bent(Math.sin(angle), squareness)];
		})
	);
}

const bent = (value: number, power: number): number => Math.sign(value) * Math.abs(value) ** power;

/** A line from left to right; `targetY` is where it should pass the target, at the end of `side`. */
function lineAcross(
	hand: Hand,
	left: number,
	right: number,
	y: number,
	targetY = y,
	side: TargetSide = 'left'
): Stroke {
	const slope = 1.2 * (hand.random() - 0.5);
	const [from, to] = side === 'left' ? [targetY, y] : [y, targetY];
	return handStroke({ ...hand, speedPtPerMs: 0.28 }, [
		[left, from - slope],
		[right, to + slope]
	]);
}

/** Names taller than this are printed on two lines or more, in points. */
const LINE_PT = 17;

/** Where to strike so that every line of a name is struck through. */
function linesThrough(_hand: Hand, name: Box): number[] {
	const lines = Math.max(1, Math.round(name.height / LINE_PT));
	return Array.from({ length: lines }, (_, line) => name.y + (name.height * (line + 0.55)) / lines);
}

/** As if an arrow were to be joined: from inside the oval over the gap to the name. */
function oldHabit(hand: Hand, target: Box, name: Box, side: TargetSide): Stroke {
	const y = middleY(target);
	const from = side === 'left' ? target.x + target.width * 0.33 : target.x + target.width * 0.67;
	const to = side === 'left' ? name.x - 1.5 : name.x + name.width + 1.5;
	return handStroke({ ...hand, wobblePt: 0.35 }, [
		[from, y - 0.3],
		[to, y + 0.4]
	]);
}

/** Middle of a check behind the name, or before it where a target stands close behind. */
function behindName({ name, target }: ChoiceLayout, side: TargetSide): number {
	const behind = name.x + name.width + 9;
	return side === 'right' && behind + 10 > target.x ? name.x - 9 : behind;
}

/** Rubs to and fro over a target and a little beyond it. */
function rub(hand: Hand, { x, y, width, height }: Box): Stroke {
	const turns = 9;
	return handStroke(
		{ ...hand, wobblePt: 1, speedPtPerMs: 0.3 },
		Array.from({ length: turns + 1 }, (_, i) => [
			x - 3 + ((width + 6) * i) / turns,
			y + height / 2 + (i % 2 === 0 ? -1 : 1) * height * 0.55
		])
	);
}
