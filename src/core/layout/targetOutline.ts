import type { TargetShape, TargetSide } from '../election/election';
import type { Box } from '../geometry';

/** Width of the line around an oval or a box. A hairline would vanish on an office printer; found by trial. */
export const OUTLINE_WIDTH_PT = 1;

/** Width of a broken arrow's shaft and head. */
export const ARROW_WIDTH_PT = 2.2;

/** Length of an arrow's tail and of its head, outside the gap that is the target. */
export const ARROW_TAIL_PT = 11;
export const ARROW_HEAD_PT = 14;

/** How far the two barbs of an arrow's head lie above and below its shaft, and back from its tip. */
const BARB_RISE_PT = 4.6;
const BARB_RUN_PT = 7;

/** Corners of the polygon drawn for an oval: less than 0.02 pt off the true ellipse for targets up to 30 pt. */
const OVAL_POINTS = 64;

/** A line of the printed target: drawn along `points` [x0, y0, x1, y1, …] with round caps and joins. */
export interface OutlineStroke {
	/** Whether the last point is joined to the first. */
	readonly closed: boolean;
	/** In points on the page. */
	readonly points: Float64Array;
	readonly widthPt: number;
}

/**
 * What is printed of a target. `box` is the outer box of an oval's or box's line; of a broken arrow it is
 * the gap between tail and head, which lie outside it. The arrow points at the name, so on the left of
 * the name it points right.
 */
export function targetOutline(shape: TargetShape, side: TargetSide, box: Box): readonly OutlineStroke[] {
	if (shape === 'arrow') return arrow(side, box);
	const half = OUTLINE_WIDTH_PT / 2;
	const inner = { x: box.x + half, y: box.y + half, width: box.width - 2 * half, height: box.height - 2 * half };
	const points = shape === 'oval' ? ellipse(inner) : corners(inner);
	return [{ closed: true, points, widthPt: OUTLINE_WIDTH_PT }];
}

/** How far the printed target reaches beyond its box on the side away from the name and towards it. */
export function reachOf(shape: TargetShape): { readonly outwardPt: number; readonly inwardPt: number } {
	return shape === 'arrow' ? { outwardPt: ARROW_TAIL_PT, inwardPt: ARROW_HEAD_PT } : { outwardPt: 0, inwardPt: 0 };
}

function ellipse({ x, y, width, height }: Box): Float64Array {
	const points = new Float64Array(2 * OVAL_POINTS);
	for (let i = 0; i < OVAL_POINTS; i++) {
		const angle = (2 * Math.PI * i) / OVAL_POINTS;
		points[2 * i] = x + (width / 2) * (1 + Math.cos(angle));
		points[2 * i + 1] = y + (height / 2) * (1 + Math.sin(angle));
	}
	return points;
}

function corners({ x, y, width, height }: Box): Float64Array {
	return Float64Array.of(x, y, x + width, y, x + width, y + height, x, y + height);
}

/** Tail and head end half a line's width short of the gap, because their caps are round. */
function arrow(side: TargetSide, box: Box): readonly OutlineStroke[] {
	const half = ARROW_WIDTH_PT / 2;
	const middle = box.y + box.height / 2;
	const towards = side === 'left' ? 1 : -1;
	const [tailEdge, headEdge] = side === 'left' ? [box.x, box.x + box.width] : [box.x + box.width, box.x];
	const tip = headEdge + towards * (ARROW_HEAD_PT - half);
	const back = tip - towards * BARB_RUN_PT;
	const stroke = (...points: number[]) => ({
		closed: false,
		points: Float64Array.from(points),
		widthPt: ARROW_WIDTH_PT
	});
	return [
		stroke(tailEdge - towards * (ARROW_TAIL_PT - half), middle, tailEdge - towards * half, middle),
		stroke(headEdge + towards * half, middle, tip, middle),
		stroke(back, middle - BARB_RISE_PT, tip, middle, back, middle + BARB_RISE_PT)
	];
}
