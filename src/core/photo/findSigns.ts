import type { Point } from '../geometry';
import { PX_PER_PT, type GreyImage } from '../image';
import { CODE, codeCorners, CORNER_RADIUS_PT, cornersOf } from '../sheet/signs';
import { findBlock } from './correlate';
import { followPrint, viewNear } from './followPrint';
import { homographyOf, project, type Homography } from './homography';
import { viewByPose } from './pose';
import { flatField, rectify, type PageMap } from './pageMap';

/** Side of the square in which a corner mark is looked for, in points: the mark and white paper around it. */
const MARK_SIDE_PT = 20;

/** Likeness from which something is our corner mark. Found by trial: text and table tops stay below 0.6. */
export const LEAST_LIKENESS = 0.7;

/** Variance of a block that is worth looking for. */
const LEAST_VARIANCE = 60;

/** Parts of the code's square that are looked for one by one, each way. */
const CODE_PARTS = 4;

/** Where the signs of a sheet were found in the photo. */
export interface Signs {
	/** From pixels of the 200 dpi page to pixels of the photo, through the middles of the four corner marks. */
	readonly view: Homography;
	/** Likeness of each corner mark, top left first, clockwise. */
	readonly likeness: readonly number[];
}

/** The signs of a sheet in a photo. `covered`: numbers of the corner marks that are not to be seen. */
export type SignsFound = { readonly signs: Signs } | { readonly covered: readonly number[] };

/**
 * Finds the four corner marks of a page in a photo, from the corners of its code on. The code is small, so it says
 * roughly how the sheet lies; the marks nearer to it are looked for first and make the guess better for the next.
 * `prints`: the printed sheet and its halves; `levels`: the photo and its halves.
 */
export function findSigns(
	levels: readonly GreyImage[],
	prints: readonly GreyImage[],
	codeInPhoto: readonly Point[]
): SignsFound {
	const [print] = prints;
	if (!print) return { covered: [] };
	const page = { widthPt: print.width / PX_PER_PT, heightPt: print.height / PX_PER_PT };
	const middles = cornersOf(page).map(toPx);
	const first = homographyOf(codeCorners().map(toPx), codeInPhoto);
	if (!first) return { covered: [] };
	const code = codePoints(levels, prints, first);
	const from = [...code.from];
	const to = [...code.to];
	const weights = code.from.map(() => 1);
	const [photo] = levels as readonly [GreyImage];
	const middle = { x: photo.width / 2, y: photo.height / 2 };
	const found: (FoundMark | undefined)[] = [undefined, undefined, undefined, undefined];
	// Top right stands beside the code; the far corner comes last.
	for (const corner of [1, 0, 2, 3]) {
		const place = middles[corner] as Point;
		let best: FoundMark | undefined;
		for (const focal of FOCAL_LENGTHS) {
			const focalPx = focal * Math.max(photo.width, photo.height);
			const view = viewByPose(from, to, weights, focalPx, middle) ?? first;
			const mark = findMark(levels, prints, view, place, REACH_PT[corner] as number);
			if (mark && mark.likeness > (best?.likeness ?? -1)) best = mark;
			if (mark && mark.likeness > PLAIN_LIKENESS) break;
		}
		found[corner] = best;
		if (!best || best.likeness < LEAST_LIKENESS) continue;
		from.push(place);
		to.push(best.at);
		// Far marks settle how the sheet lies; the code's parts only how it lies there.
		weights.push(20);
	}
	const isThere = (corner: number) => (found[corner]?.likeness ?? 0) >= LEAST_LIKENESS;
	if (isThere(0) && isThere(1) && !(isThere(2) && isThere(3))) {
		const pairs = followPrint(levels, prints, { from, to });
		for (const corner of [2, 3]) {
			const place = middles[corner] as Point;
			const view = isThere(corner) ? undefined : viewNear(pairs, place.y);
			if (view) found[corner] = findMark(levels, prints, view, place, FOLLOWED_REACH_PT);
		}
	}
	const covered = found.flatMap((_, corner) => (isThere(corner) ? [] : [corner]));
	if (covered.length > 0) return { covered };
	const marks = found as readonly FoundMark[];
	const last = homographyOf(
		middles,
		marks.map(({ at }) => at)
	);
	return last ? { signs: { view: last, likeness: marks.map(({ likeness }) => likeness) } } : { covered: [] };
}

interface FoundMark {
	readonly at: Point;
	readonly likeness: number;
}

/** How far from where it is expected each corner mark is looked for, in points; found by trial with the widest tilts and curls. */
const REACH_PT = [80, 8, 110, 70];

/** The same where the print was followed down to them. */
const FOLLOWED_REACH_PT = 40;

/**
 * Focal lengths that are tried, in lengths of the photo's longer side: a phone's main camera has about 0.75, and more where
 * the photo was cut out of a larger one. A mark that is plainly found needs no further try.
 */
const FOCAL_LENGTHS = [0.77, 1.05, 1.5];
const PLAIN_LIKENESS = 0.85;

const toPx = ({ x, y }: Point): Point => ({ x: x * PX_PER_PT, y: y * PX_PER_PT });

/** One corner mark, looked for at 50 dpi over a wide area and then twice finer, each time where it was found. */
function findMark(
	levels: readonly GreyImage[],
	prints: readonly GreyImage[],
	view: Homography,
	middle: Point,
	reachPt: number
): FoundMark | undefined {
	let at = middle;
	let likeness = 0;
	for (const [level, reach] of [
		[2, reachPt],
		[1, 5],
		[0, 1.5]
	] as const) {
		const stride = 2 ** level;
		const print = prints[level];
		if (!print) return undefined;
		const side = Math.round((MARK_SIDE_PT * PX_PER_PT) / stride);
		const reachPx = Math.ceil((reach * PX_PER_PT) / stride);
		const left = Math.round(middle.x / stride - side / 2);
		const top = Math.round(middle.y / stride - side / 2);
		const [offX, offY] = [Math.round((at.x - middle.x) / stride), Math.round((at.y - middle.y) / stride)];
		const part = {
			xPx: left + offX - reachPx,
			yPx: top + offY - reachPx,
			widthPx: side + 2 * reachPx,
			heightPx: side + 2 * reachPx
		};
		const picture = rectify(levels, planeOf(view, prints), stride, part);
		const match = findBlock(
			print,
			picture,
			left,
			top,
			side,
			offX - part.xPx,
			offY - part.yPx,
			reachPx,
			LEAST_VARIANCE,
			'widely'
		);
		if (!match) return undefined;
		at = { x: middle.x + (match.dx + part.xPx) * stride, y: middle.y + (match.dy + part.yPx) * stride };
		likeness = match.likeness;
	}
	return { at: project(view, at.x, at.y), likeness };
}

/** Parts of the code and of its surroundings found one by one: better than the corners that a decoder gives. */
function codePoints(
	levels: readonly GreyImage[],
	prints: readonly GreyImage[],
	first: Homography
): { readonly from: readonly Point[]; readonly to: readonly Point[] } {
	let from: Point[] = [];
	let to: Point[] = [];
	let view = first;
	const print = prints[0] as GreyImage;
	const side = Math.floor((CODE.sizePt * PX_PER_PT) / CODE_PARTS);
	const [codeLeft, codeTop] = [(CODE.rightPt - CODE.sizePt) * PX_PER_PT, CODE.topPt * PX_PER_PT];
	for (const reach of [6, 3]) {
		const part = {
			xPx: Math.floor(codeLeft) - reach - 2,
			yPx: Math.floor(codeTop) - reach - 2,
			widthPx: CODE_PARTS * side + 2 * reach + 6,
			heightPx: CODE_PARTS * side + 2 * reach + 6
		};
		const picture = rectify(levels, planeOf(view, prints), 1, part);
		from = [];
		to = [];
		for (let row = 0; row < CODE_PARTS; row++)
			for (let column = 0; column < CODE_PARTS; column++) {
				const left = Math.round(codeLeft + column * side);
				const top = Math.round(codeTop + row * side);
				const match = findBlock(print, picture, left, top, side, -part.xPx, -part.yPx, reach, LEAST_VARIANCE);
				if (!match || match.likeness < LEAST_LIKENESS) continue;
				const [x, y] = [left + side / 2, top + side / 2];
				from.push({ x, y });
				to.push(project(view, x + match.dx + part.xPx, y + match.dy + part.yPx));
			}
		const better = from.length >= 8 ? homographyOf(from, to) : undefined;
		if (!better) break;
		view = better;
	}
	if (from.length < 8) {
		from = codeCorners().map(toPx);
		to = from.map(({ x, y }) => project(first, x, y));
	}
	return { from, to };
}

function planeOf(view: Homography, prints: readonly GreyImage[]): PageMap {
	const { width, height } = prints[0] as GreyImage;
	return { widthPx: width, heightPx: height, view, field: flatField(width, height) };
}

/** A corner mark is wholly inside the square it is looked for in. */
if (MARK_SIDE_PT < 2 * CORNER_RADIUS_PT) throw new RangeError('findSigns: MARK_SIDE_PT must hold a corner mark');
