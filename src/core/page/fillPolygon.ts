import type { GreyImage } from '../image';

/** A part of a page in which polygons are gathered before they are printed: `width` by `height` pixels at (left, top). */
export interface PolygonArea {
	readonly left: number;
	readonly top: number;
	readonly width: number;
	readonly height: number;
	/** Change of the signed cover from one pixel to the next; one pixel longer than the area on each row. */
	readonly steps: Float32Array;
}

/** An empty area. Sizes in whole pixels. */
export function polygonArea(left: number, top: number, width: number, height: number): PolygonArea {
	return { left, top, width, height, steps: new Float32Array((width + 2) * height) };
}

/**
 * Adds closed contours [x0, y0, x1, y1, …] to the area, which it changes. Their points are taken times
 * `scale` and moved by (`x`, `y`), in pixels of the page; each must lie inside the area from left to
 * right. Exact: every pixel gets the part of its square that lies inside, counted with its winding.
 * The method is the signed-area accumulation of font rasterisers (described by Raph Levien, font-rs,
 * 2016).
 */
export function fillPolygon(
	area: PolygonArea,
	contours: readonly (Float32Array | Float64Array)[],
	scale: number,
	x: number,
	y: number
): void {
	const left = x - area.left;
	const top = y - area.top;
	for (const contour of contours) {
		const length = contour.length;
		if (length < 6) continue;
		let x0 = (contour[length - 2] ?? 0) * scale + left;
		let y0 = (contour[length - 1] ?? 0) * scale + top;
		for (let i = 0; i < length; i += 2) {
			const x1 = (contour[i] ?? 0) * scale + left;
			const y1 = (contour[i + 1] ?? 0) * scale + top;
			addEdge(area, x0, y0, x1, y1);
			x0 = x1;
			y0 = y1;
		}
	}
}

/** Height below which an edge is level, in pixels. */
const FLAT_PX = 1e-9;

/** On each row an edge crosses, everything to its right gains the height crossed; the pixels it runs through, a part. */
function addEdge({ steps, width, height }: PolygonArea, x0: number, y0: number, x1: number, y1: number): void {
	// Flatter than this an edge encloses nothing, and its slope would leave the numbers.
	if (Math.abs(y1 - y0) < FLAT_PX) return;
	const sign = y0 < y1 ? 1 : -1;
	const upper = y0 < y1 ? y0 : y1;
	const lower = y0 < y1 ? y1 : y0;
	const slope = (x1 - x0) / (y1 - y0);
	let x = y0 < y1 ? x0 : x1;
	// An edge that is level but for the last digit has a slope without bound: it still ends where its points are.
	const least = x0 < x1 ? x0 : x1;
	const most = x0 < x1 ? x1 : x0;
	if (upper < 0) x = clamp(x - upper * slope, least, most);
	const lastRow = Math.min(height, Math.ceil(lower));
	const stride = width + 2;
	for (let row = Math.max(0, Math.floor(upper)); row < lastRow; row++) {
		const crossed = (lower < row + 1 ? lower : row + 1) - (upper > row ? upper : row);
		if (crossed <= 0) continue;
		const next = clamp(x + slope * crossed, least, most);
		const change = sign * crossed;
		const from = x < next ? x : next;
		const to = x < next ? next : x;
		const first = Math.floor(from);
		const end = Math.ceil(to);
		const at = row * stride + first;
		if (end <= first + 1) {
			const rest = change * ((from + to) / 2 - first);
			steps[at] = (steps[at] ?? 0) + change - rest;
			steps[at + 1] = (steps[at + 1] ?? 0) + rest;
		} else {
			// The edge runs through several pixels of the row: each takes its slice, and its right neighbour the rest.
			const perPixel = change / (to - from);
			for (let pixel = first; pixel < end; pixel++) {
				const a = from > pixel ? from - pixel : 0;
				const b = to < pixel + 1 ? to - pixel : 1;
				const slice = perPixel * (b - a);
				const rest = (slice * (a + b)) / 2;
				const here = row * stride + pixel;
				steps[here] = (steps[here] ?? 0) + slice - rest;
				steps[here + 1] = (steps[here + 1] ?? 0) + rest;
			}
		}
		x = next;
	}
}

const clamp = (value: number, least: number, most: number): number =>
	value < least ? least : value > most ? most : value;

/**
 * Prints the gathered polygons into `page`, which this changes: a pixel loses `density` of its light
 * where it is covered wholly. Winding counts are cut off at one (non-zero rule).
 */
export function printAreaInPlace(
	page: GreyImage,
	{ left, top, width, height, steps }: PolygonArea,
	density: number
): void {
	const stride = width + 2;
	const firstColumn = Math.max(0, -left);
	const lastColumn = Math.min(width, page.width - left);
	for (let row = Math.max(0, -top); row < Math.min(height, page.height - top); row++) {
		let winding = 0;
		for (let column = 0; column < lastColumn; column++) {
			winding += steps[row * stride + column] ?? 0;
			const covered = winding < 0 ? -winding : winding;
			// Sums of many parts leave a rounding error where nothing is.
			if (covered < 1e-4 || column < firstColumn) continue;
			const pixel = (row + top) * page.width + left + column;
			page.data[pixel] = ((page.data[pixel] ?? 0) * (1 - density * (covered > 1 ? 1 : covered)) + 0.5) | 0;
		}
	}
}
