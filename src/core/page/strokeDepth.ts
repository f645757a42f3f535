import type { PixelBox } from '../image';
import type { StrokePath } from './strokePath';

/** How deep each pixel's centre lies inside a stroke. Lives until the next call of `strokeDepth`. */
export interface StrokeDepth {
	/** The part of the window that the stroke can touch, in pixels relative to the stroke's anchor. */
	readonly left: number;
	readonly top: number;
	readonly width: number;
	readonly height: number;
	/** Pixels inside the edge (negative outside), OUTSIDE where the stroke does not reach; `width` by `height`. */
	readonly depths: Float32Array;
	/** Largest pressure of the pieces that reach the pixel. */
	readonly strengths: Float32Array;
	/** First and one past the last column that may be touched, for each row. */
	readonly starts: Int32Array;
	readonly ends: Int32Array;
}

export const OUTSIDE = -1e9;

let depths = new Float32Array(0);
let strengths = new Float32Array(0);
let starts = new Int32Array(0);
let ends = new Int32Array(0);
let lastWidth = 0;
let lastHeight = 0;

/**
 * Distance of every pixel near the path to the path's edge; overlapping pieces keep the deepest, so a
 * stroke that crosses itself is not darker there. `window` is relative to the path's anchor. Returns
 * undefined where the stroke does not touch the window.
 */
export function strokeDepth(path: StrokePath, window: PixelBox): StrokeDepth | undefined {
	const { count, xs, ys, radii, strengths: pressures, softPx, marginPx: margin } = path;
	let minX = Infinity;
	let minY = Infinity;
	let maxX = -Infinity;
	let maxY = -Infinity;
	for (let i = 0; i < count; i++) {
		const x = xs[i] ?? 0;
		const y = ys[i] ?? 0;
		const reach = (radii[i] ?? 0) + margin;
		if (x - reach < minX) minX = x - reach;
		if (x + reach > maxX) maxX = x + reach;
		if (y - reach < minY) minY = y - reach;
		if (y + reach > maxY) maxY = y + reach;
	}
	const left = Math.max(window.xPx, Math.floor(minX));
	const top = Math.max(window.yPx, Math.floor(minY));
	const width = Math.min(window.xPx + window.widthPx, Math.ceil(maxX) + 1) - left;
	const height = Math.min(window.yPx + window.heightPx, Math.ceil(maxY) + 1) - top;
	if (width <= 0 || height <= 0) return undefined;
	prepare(width, height);

	for (let i = 0; i < count; i++) {
		const x0 = xs[i] ?? 0;
		const y0 = ys[i] ?? 0;
		const r0 = radii[i] ?? 0;
		const p0 = pressures[i] ?? 1;
		const next = i + 1 < count ? i + 1 : i;
		if (next === i && count > 1) break;
		const dx = (xs[next] ?? 0) - x0;
		const dy = (ys[next] ?? 0) - y0;
		const dr = (radii[next] ?? 0) - r0;
		const dp = (pressures[next] ?? 1) - p0;
		const reach = Math.max(r0, r0 + dr) + margin;
		const firstRow = Math.max(0, Math.ceil(Math.min(y0, y0 + dy) - reach - 0.5 - top));
		const lastRow = Math.min(height - 1, Math.floor(Math.max(y0, y0 + dy) + reach - 0.5 - top));
		if (firstRow > lastRow) continue;
		if (Math.min(x0, x0 + dx) - reach > left + width || Math.max(x0, x0 + dx) + reach < left) continue;
		const squared = dx * dx + dy * dy;
		const inverse = squared > 0 ? 1 / squared : 0;
		const reachSquared = reach * reach;
		for (let row = firstRow; row <= lastRow; row++) {
			const y = row + top + 0.5 - y0;
			// Part of the piece within reach of this row, as a range along it.
			let from = 0;
			let to = 1;
			if (dy !== 0) {
				const a = (y - reach) / dy;
				const b = (y + reach) / dy;
				from = Math.max(0, Math.min(a, b));
				to = Math.min(1, Math.max(a, b));
			}
			const xa = x0 + dx * from;
			const xb = x0 + dx * to;
			const first = Math.max(0, Math.ceil(Math.min(xa, xb) - reach - 0.5 - left));
			const last = Math.min(width - 1, Math.floor(Math.max(xa, xb) + reach - 0.5 - left));
			if (first > last) continue;
			if (first < (starts[row] ?? 0)) starts[row] = first;
			if (last >= (ends[row] ?? 0)) ends[row] = last + 1;
			const base = row * width;
			const rise = y * dy;
			for (let column = first; column <= last; column++) {
				const x = column + left + 0.5 - x0;
				let t = (x * dx + rise) * inverse;
				if (t < 0) t = 0;
				else if (t > 1) t = 1;
				const offX = x - dx * t;
				const offY = y - dy * t;
				const far = offX * offX + offY * offY;
				if (far > reachSquared) continue;
				const depth = r0 + dr * t - Math.sqrt(far);
				const at = base + column;
				if (depth > (depths[at] ?? 0)) depths[at] = depth;
				const pressure = p0 + dp * t;
				if (depth > -softPx && pressure > (strengths[at] ?? 0)) strengths[at] = pressure;
			}
		}
	}
	return { left, top, width, height, depths, strengths, starts, ends };
}

/**
 * Empties the scratch arrays, growing them where they are too small. Only what the last call touched is
 * written: a long thin stroke has a large box but few pixels.
 */
function prepare(width: number, height: number): void {
	for (let row = 0; row < lastHeight; row++) {
		const end = ends[row] ?? 0;
		const start = starts[row] ?? 0;
		if (start >= end) continue;
		depths.fill(OUTSIDE, row * lastWidth + start, row * lastWidth + end);
		strengths.fill(OUTSIDE, row * lastWidth + start, row * lastWidth + end);
	}
	const size = width * height;
	if (depths.length < size) {
		depths = new Float32Array(size).fill(OUTSIDE);
		strengths = new Float32Array(size).fill(OUTSIDE);
	}
	if (starts.length < height) {
		starts = new Int32Array(height);
		ends = new Int32Array(height);
	}
	starts.fill(width, 0, height);
	ends.fill(0, 0, height);
	lastWidth = width;
	lastHeight = height;
}

/** Share of a pixel that is covered at `depth`: linear over the ramp. */
export function coverageAt(depth: number, softPx: number): number {
	const share = (depth + softPx) / (2 * softPx);
	return share <= 0 ? 0 : share >= 1 ? 1 : share;
}
