import { PT_PER_MM, PX_PER_MM, PX_PER_PT } from '../image';
import { FARTHEST_PT, NIB_MM, type Stroke } from '../ink/stroke';
import { grainAt } from '../random';
import { ERASER, INK_TOOLS } from './inkTools';

/** A stroke as short pieces in pixels, relative to the pixel origin of its anchor. */
export interface StrokePath {
	readonly count: number;
	readonly xs: Float64Array;
	readonly ys: Float64Array;
	/** Half the width at each point, in pixels. */
	readonly radii: Float64Array;
	/** Pressure of the pen at each point, around 1; of a pen running dry, what it still gives, down to below 0. */
	readonly strengths: Float64Array;
	readonly softPx: number;
	/** How far beyond its edge the stroke can leave ink, in pixels: the ramp and the edge's roughness. */
	readonly marginPx: number;
}

/** Positions are rounded to this share of a pixel, so that the same mark at another target is the same to the bit. */
const SNAPS_PER_PX = 1024;

/** Points nearer to the last than this share of half the width change nothing to be seen and are skipped. */
const SKIPPED_SHARE = 0.25;

/** Longest piece, in pixels: short enough for width and pressure to sway smoothly. */
const PIECE_PX = 5;

/** Length over which width and pressure sway, in pixels. Found by trial. */
const SWAY_PX = 14;

/** A drying pen writes fully for the first length and is empty after the second, in millimetres. Found by trial. */
const DRY_FULL_MM = 5;
const DRY_EMPTY_MM = 34;

/**
 * The path of a stroke with at least one point. `originX`, `originY`: the anchor's pixel origin on the
 * page. Throws a RangeError on a coordinate that is not a number or farther out than FARTHEST_PT.
 */
export function strokePath(stroke: Stroke, originX: number, originY: number, seed: number): StrokePath {
	const { tool, points } = stroke;
	const { softPx, roughPx, widthSway, pressureSway } = tool === 'eraser' ? ERASER : INK_TOOLS[tool];
	const marginPx = softPx + roughPx / 2;
	const radiusPx = ((stroke.widthMm ?? NIB_MM[tool]) * PX_PER_MM) / 2;
	const cornersX = new Float64Array(points.length);
	const cornersY = new Float64Array(points.length);
	const tooClose = (radiusPx * SKIPPED_SHARE) ** 2;
	let corners = 0;
	let pieces = 0;
	let left = points.length;
	for (const [xPt, yPt] of points) {
		left -= 1;
		if (!(Math.abs(xPt) <= FARTHEST_PT && Math.abs(yPt) <= FARTHEST_PT))
			throw new RangeError(
				`strokePath: expected coordinates from -${FARTHEST_PT} to ${FARTHEST_PT} points, got (${xPt}, ${yPt}); run checkInk first`
			);
		const x = snap(xPt * PX_PER_PT - originX);
		const y = snap(yPt * PX_PER_PT - originY);
		if (corners > 0) {
			const dx = x - (cornersX[corners - 1] ?? 0);
			const dy = y - (cornersY[corners - 1] ?? 0);
			const squared = dx * dx + dy * dy;
			if (squared === 0 || (squared < tooClose && left > 0)) continue;
			pieces += Math.ceil(Math.sqrt(squared) / PIECE_PX);
		}
		cornersX[corners] = x;
		cornersY[corners] = y;
		corners += 1;
	}
	if (corners === 1) return dotPath(cornersX, cornersY, radiusPx, softPx, marginPx);
	const count = pieces + 1;
	const xs = new Float64Array(count);
	const ys = new Float64Array(count);
	const radii = new Float64Array(count);
	const strengths = new Float64Array(count);
	const strokeSeed = seed ^ (grainAt(Math.floor(cornersX[0] ?? 0), Math.floor(cornersY[0] ?? 0), seed) * 0x7fffffff);
	let at = 0;
	let travelled = 0;
	for (let corner = 0; corner < corners; corner++) {
		const x1 = cornersX[corner] ?? 0;
		const y1 = cornersY[corner] ?? 0;
		const x0 = corner === 0 ? x1 : (cornersX[corner - 1] ?? 0);
		const y0 = corner === 0 ? y1 : (cornersY[corner - 1] ?? 0);
		const stretch = Math.sqrt((x1 - x0) * (x1 - x0) + (y1 - y0) * (y1 - y0));
		const steps = corner === 0 ? 1 : Math.ceil(stretch / PIECE_PX);
		for (let step = 1; step <= steps; step++) {
			const t = step / steps;
			const s = travelled + stretch * t;
			xs[at] = x0 + (x1 - x0) * t;
			ys[at] = y0 + (y1 - y0) * t;
			radii[at] = radiusPx * (1 + widthSway * sway(s, strokeSeed));
			strengths[at] = 1 + pressureSway * sway(s, strokeSeed + 1);
			if (tool === 'dry') strengths[at] = (strengths[at] ?? 1) * inkLeft(s, strokeSeed);
			at += 1;
		}
		travelled += stretch;
	}
	return { count, xs, ys, radii, strengths, softPx, marginPx };
}

/** A sharp line of even width along `points` [x0, y0, x1, y1, …] in points on the page, as print draws it. */
export function plainPath(
	points: Float64Array,
	closed: boolean,
	widthPt: number,
	originX: number,
	originY: number
): StrokePath {
	const corners = points.length / 2;
	const count = corners + (closed ? 1 : 0);
	const xs = new Float64Array(count);
	const ys = new Float64Array(count);
	for (let i = 0; i < count; i++) {
		xs[i] = snap((points[2 * (i % corners)] ?? 0) * PX_PER_PT - originX);
		ys[i] = snap((points[2 * (i % corners) + 1] ?? 0) * PX_PER_PT - originY);
	}
	const radii = new Float64Array(count).fill((widthPt * PX_PER_PT) / 2);
	return { count, xs, ys, radii, strengths: new Float64Array(count).fill(1), softPx: 0.5, marginPx: 0.5 };
}

const snap = (px: number): number => Math.round(px * SNAPS_PER_PX) / SNAPS_PER_PX;

/** A linear ramp at the edge of a disc adds a twelfth of a square pixel times pi; the radius takes it off again. */
function dotPath(xs: Float64Array, ys: Float64Array, radiusPx: number, softPx: number, marginPx: number): StrokePath {
	const radius = Math.sqrt(Math.max(0.01, radiusPx * radiusPx - (softPx * softPx) / 3));
	return { count: 1, xs, ys, radii: Float64Array.of(radius), strengths: Float64Array.of(1), softPx, marginPx };
}

/** Smooth noise from -1 to 1 along the stroke. */
function sway(sPx: number, seed: number): number {
	const place = sPx / SWAY_PX;
	const cell = Math.floor(place);
	const t = place - cell;
	const a = grainAt(cell, 0, seed);
	const b = grainAt(cell + 1, 0, seed);
	return 2 * (a + (b - a) * t * t * (3 - 2 * t)) - 1;
}

/** What a drying pen still gives: 1 at first, then less with short recoveries, below 0 at the end. */
function inkLeft(sPx: number, seed: number): number {
	const mm = sPx / PX_PER_MM;
	if (mm <= DRY_FULL_MM) return 1;
	const gone = Math.min(1, (mm - DRY_FULL_MM) / (DRY_EMPTY_MM - DRY_FULL_MM));
	return 1 - 1.25 * gone + 0.35 * gone * (1 - gone) * 4 * sway(sPx, seed + 2);
}

/** How far from its points a stroke can reach, in points. */
export function reachPt(stroke: Stroke): number {
	const { softPx } = stroke.tool === 'eraser' ? ERASER : INK_TOOLS[stroke.tool];
	return 0.6 * (stroke.widthMm ?? NIB_MM[stroke.tool]) * PT_PER_MM + (softPx + 2) / PX_PER_PT;
}
