import type { TargetShape, TargetSide } from '$core/election/election';
import type { Box } from '$core/geometry';
import { handStroke, type Hand } from '$core/ink/handStroke';
import { placeMark, type PlaceableMark } from '$core/ink/placeMark';
import { NIB_MM, type Stroke, type Tool } from '$core/ink/stroke';
import { writeSquiggle } from '$core/ink/writeSquiggle';
import { PT_PER_MM } from '$core/image';
import type { ChoiceLayout } from '$core/layout/layout';
import { randomFrom } from '$core/random';

type Corner = readonly [x: number, y: number];

/** One voter's pen on a sheet of one target shape. Lengths in points. */
export interface Pen {
	readonly place: (kind: PlaceableMark, row: ChoiceLayout, tool?: Tool) => readonly Stroke[];
	/** The left part of a target's inside hatched closely, to a share of its width. */
	readonly patch: (row: ChoiceLayout, share: number, tool?: Tool) => readonly Stroke[];
	/** A hasty line to and fro over a target's inside, over a share of its width: the fewer turns, the more stays bare. */
	readonly scrawl: (row: ChoiceLayout, turns: number, share: number) => readonly Stroke[];
	readonly line: (...corners: readonly Corner[]) => readonly Stroke[];
	/** An eraser to and fro over the right end of a target, from a share of its width on. */
	readonly rub: (row: ChoiceLayout, from: number) => readonly Stroke[];
	/** Handwriting that says nothing, in a box. */
	readonly write: (box: Box) => readonly Stroke[];
}

export function penFor(shape: TargetShape, side: TargetSide, seed: number): Pen {
	const handOf = (tool: Tool): Hand => ({ tool, random: randomFrom(seed), wobblePt: 0.35, speedPtPerMs: 0.16 });
	return {
		place: (kind, row, tool = 'ballpoint') => placeMark(kind, row, { tool, shape, side, seed }),
		patch: ({ target }, share, tool = 'ballpoint') => [patch(handOf(tool), target, share)],
		scrawl: ({ target: { x, y, width, height } }, turns, share) => [
			handStroke(
				handOf('ballpoint'),
				Array.from({ length: turns + 1 }, (_, i): Corner => [
					x + width * (0.14 + (share * i) / turns),
					y + height * (i % 2 === 0 ? 0.16 : 0.84)
				])
			)
		],
		line: (...corners) => [handStroke(handOf('ballpoint'), corners)],
		rub: ({ target: { x, y, width, height } }, from) => [
			handStroke(
				handOf('eraser'),
				Array.from({ length: 7 }, (_, i): Corner => [
					x + width * (from + (0.5 * i) / 6),
					y + height * (0.5 + (i % 2 === 0 ? -0.55 : 0.55))
				])
			)
		],
		write: (box) => writeSquiggle(handOf('ballpoint'), box)
	};
}

/** To and fro from the left end of an oval, inside its line. */
function patch(hand: Hand, { x, y, width, height }: Box, share: number): Stroke {
	const nibPt = NIB_MM[hand.tool] * PT_PER_MM;
	const across = width / 2 - 0.7 - nibPt / 2;
	const up = height / 2 - 0.7 - nibPt / 2;
	const end = -across + 2 * across * share;
	const turns = Math.max(4, Math.ceil((end + across) / (nibPt * 0.7)));
	return handStroke(
		{ ...hand, wobblePt: 0.3 },
		Array.from({ length: turns + 1 }, (_, i): Corner => {
			const dx = -across + ((end + across) * i) / turns;
			const reach = up * Math.sqrt(Math.max(0.05, 1 - (dx / across) ** 2));
			return [x + width / 2 + dx, y + height / 2 + (i % 2 === 0 ? 1 : -1) * reach];
		})
	);
}

/** Boxes and corners that several pictures share. */
export const middleY = ({ y, height }: Box): number => y + height / 2;
export const rightOf = ({ x, width }: Box): number => x + width;

/** Room for a short note behind a printed name. */
export const afterName = ({ name }: ChoiceLayout): Box => ({
	x: rightOf(name),
	y: name.y - 3,
	width: 60,
	height: name.height + 4
});

/** A small check or cross between a target and its name, clear of both. */
export function tickBeside(pen: Pen, { target, name }: ChoiceLayout): readonly Stroke[] {
	const x = (rightOf(target) + name.x) / 2;
	const y = middleY(target);
	return pen.line([x - 2.6, y + 0.5], [x - 0.9, y + 3.6], [x + 2.6, y - 4]);
}

export const crossBeside = (pen: Pen, { target, name }: ChoiceLayout): readonly Stroke[] =>
	crossAt(pen, (rightOf(target) + name.x) / 2, middleY(target));

/** A small cross. */
export function crossAt(pen: Pen, x: number, y: number): readonly Stroke[] {
	return [...pen.line([x - 2.6, y - 3.2], [x + 2.6, y + 3.2]), ...pen.line([x + 2.5, y - 3.3], [x - 2.6, y + 3.1])];
}

/** A loop around a target that runs on its line. */
export function ringOnLine(pen: Pen, { target }: ChoiceLayout): readonly Stroke[] {
	const across = target.width / 2 + 1;
	const up = target.height / 2 + 1.6;
	const corners = Array.from({ length: 24 }, (_, i): Corner => {
		const angle = -2 - (2 * Math.PI * i) / 22;
		return [target.x + target.width / 2 + across * Math.cos(angle), middleY(target) + up * Math.sin(angle)];
	});
	return pen.line(...corners);
}
