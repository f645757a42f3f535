import type { Point } from '../geometry';
import type { PageLayout } from '../layout/layout';

/** The modules of a code, row by row, true where dark, without its quiet zone. */
export type CodeModules = readonly (readonly boolean[])[];

/** Makes the modules of a text. Passed in, because the core holds no library. */
export type EncodeCode = (text: string) => CodeModules;

/**
 * The code stands at the top right, where the page's head leaves room on every page: 48 pt wide, with more than
 * three modules of quiet paper around it. An office printer reaches a quarter of an inch of the edge (common
 * practice, no source).
 */
export const CODE = { rightPt: 570, topPt: 18, sizePt: 48 } as const;

/** From the edges of the page to the middle of a corner mark, and its radius. */
export const CORNER_INSET_PT = 27;
export const CORNER_RADIUS_PT = 7;

/** Corners of the polygon drawn for a quarter of a corner mark. */
const ARC_POINTS = 8;

/** Something solid and black: a closed polygon [x0, y0, x1, y1, …] in points. */
export type Solid = Float64Array;

/** Middles of the four corner marks: top left, top right, bottom right, bottom left. */
export function cornersOf({ widthPt, heightPt }: Pick<PageLayout, 'widthPt' | 'heightPt'>): readonly Point[] {
	const [left, top] = [CORNER_INSET_PT, CORNER_INSET_PT];
	const [right, bottom] = [widthPt - CORNER_INSET_PT, heightPt - CORNER_INSET_PT];
	return [
		{ x: left, y: top },
		{ x: right, y: top },
		{ x: right, y: bottom },
		{ x: left, y: bottom }
	];
}

/** Corners of the code, outer edges, in the same order. */
export function codeCorners(): readonly Point[] {
	const { rightPt, topPt, sizePt } = CODE;
	return [
		{ x: rightPt - sizePt, y: topPt },
		{ x: rightPt, y: topPt },
		{ x: rightPt, y: topPt + sizePt },
		{ x: rightPt - sizePt, y: topPt + sizePt }
	];
}

/**
 * All that a practice sheet has and a page on screen has not: a quartered disc in each corner, two quarters black,
 * whose middle stays sharp however blurred or slanted it is seen; and the code.
 */
export function signsOf(page: PageLayout, modules: CodeModules): readonly Solid[] {
	return [...cornersOf(page).flatMap(cornerMark), ...codeSolids(modules)];
}

/** The two black quarters of one corner mark: top left and bottom right. */
export function cornerMark(middle: Point): readonly Solid[] {
	return [quarter(middle, Math.PI), quarter(middle, 0)];
}

function quarter({ x, y }: Point, from: number): Solid {
	const points = [x, y];
	for (let i = 0; i <= ARC_POINTS; i++) {
		const angle = from + (Math.PI / 2) * (i / ARC_POINTS);
		points.push(x + CORNER_RADIUS_PT * Math.cos(angle), y + CORNER_RADIUS_PT * Math.sin(angle));
	}
	return Float64Array.from(points);
}

/** Dark modules, each run along a row as one bar. */
function codeSolids(modules: CodeModules): readonly Solid[] {
	const side = CODE.sizePt / modules.length;
	const left = CODE.rightPt - CODE.sizePt;
	return modules.flatMap((row, y) => {
		const bars: Solid[] = [];
		for (let x = 0; x < row.length; x++) {
			if (row[x] !== true) continue;
			const from = x;
			while (row[x + 1] === true) x += 1;
			const [x0, x1] = [left + from * side, left + (x + 1) * side];
			const [y0, y1] = [CODE.topPt + y * side, CODE.topPt + (y + 1) * side];
			bars.push(Float64Array.of(x0, y0, x1, y0, x1, y1, x0, y1));
		}
		return bars;
	});
}
