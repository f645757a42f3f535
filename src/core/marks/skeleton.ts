import type { Shape } from './shape';

/**
 * The middle line of a shape, one pixel wide, and how far each of its pixels is from the shape's edge.
 * Thinning after Guo and Hall, "Parallel thinning with two-subiteration algorithms" (1989), which keeps
 * the ends of slanting lines;
 * distances by the 3-4 chamfer of Borgefors, "Distance transformations in digital images" (1986).
 */
export interface Skeleton {
	readonly bits: Uint8Array;
	/** Pixels to the nearest empty pixel, for every pixel of the shape; 1 at its edge. */
	readonly depths: Float32Array;
}

/** The skeleton of a shape. */
export function skeletonOf(shape: Shape): Skeleton {
	return { bits: thin(shape), depths: depthsOf(shape) };
}

function thin({ width, height, bits: source }: Shape): Uint8Array {
	const bits = source.slice();
	fillPinholes(bits, width, height);
	let live: number[] = [];
	for (let at = 0; at < bits.length; at++) if (bits[at] === 1) live.push(at);
	const doomed: number[] = [];
	for (let changed = true; changed;) {
		changed = false;
		for (const pass of [0, 1]) {
			doomed.length = 0;
			for (const at of live) if (bits[at] === 1 && mayGo(bits, width, at, pass)) doomed.push(at);
			for (const at of doomed) bits[at] = 0;
			if (doomed.length > 0) changed = true;
		}
		if (changed) live = live.filter((at) => bits[at] === 1);
	}
	return bits;
}

/** A single empty pixel inside a stroke, where the paper's tooth took no ink, would become a loop. */
function fillPinholes(bits: Uint8Array, width: number, height: number): void {
	for (let y = 1; y < height - 1; y++)
		for (let x = 1; x < width - 1; x++) {
			const at = y * width + x;
			if (
				bits[at] === 0 &&
				bits[at - 1] === 1 &&
				bits[at + 1] === 1 &&
				bits[at - width] === 1 &&
				bits[at + width] === 1
			)
				bits[at] = 1;
		}
}

function mayGo(bits: Uint8Array, width: number, at: number, pass: number): boolean {
	const n = bits[at - width] as number;
	const ne = bits[at - width + 1] as number;
	const e = bits[at + 1] as number;
	const se = bits[at + width + 1] as number;
	const s = bits[at + width] as number;
	const sw = bits[at + width - 1] as number;
	const w = bits[at - 1] as number;
	const nw = bits[at - width - 1] as number;
	const pieces = ((n ^ 1) & (ne | e)) + ((e ^ 1) & (se | s)) + ((s ^ 1) & (sw | w)) + ((w ^ 1) & (nw | n));
	if (pieces !== 1) return false;
	const around = Math.min((nw | n) + (ne | e) + (se | s) + (sw | w), (n | ne) + (e | se) + (s | sw) + (w | nw));
	if (around < 2 || around > 3) return false;
	return pass === 0 ? ((n | ne | (se ^ 1)) & e) === 0 : ((s | sw | (nw ^ 1)) & w) === 0;
}

function depthsOf({ width, height, bits }: Shape): Float32Array {
	const far = 1e6;
	const depths = new Float32Array(bits.length);
	for (let y = 1; y < height - 1; y++)
		for (let x = 1; x < width - 1; x++) {
			const at = y * width + x;
			if (bits[at] === 0) continue;
			const above = at - width;
			depths[at] = Math.min(
				far,
				(depths[at - 1] as number) + 1,
				(depths[above] as number) + 1,
				(depths[above - 1] as number) + DIAGONAL,
				(depths[above + 1] as number) + DIAGONAL
			);
		}
	for (let y = height - 2; y > 0; y--)
		for (let x = width - 2; x > 0; x--) {
			const at = y * width + x;
			if (bits[at] === 0) continue;
			const below = at + width;
			depths[at] = Math.min(
				depths[at] as number,
				(depths[at + 1] as number) + 1,
				(depths[below] as number) + 1,
				(depths[below + 1] as number) + DIAGONAL,
				(depths[below - 1] as number) + DIAGONAL
			);
		}
	return depths;
}

const DIAGONAL = 4 / 3;
