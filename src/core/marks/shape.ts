import type { Component } from './components';

/** Share of the mark's own peak darkness from which a pixel belongs to its shape: leaves out the blur at its edges. */
const EDGE_SHARE = 0.3;

/** Shapes of more pixels than this are looked at in half, a third, … of the resolution. */
const MOST_PIXELS = 60_000;

/** The pixels of one mark in a box of its own, with one empty pixel around it. */
export interface Shape {
	/** The page's pixel at the shape's (1, 1). */
	readonly left: number;
	readonly top: number;
	/** Pixels of the page to one pixel of the shape, each way. */
	readonly scale: number;
	readonly width: number;
	readonly height: number;
	/** 1 where there is ink, row by row. */
	readonly bits: Uint8Array;
	/** How many pixels are set. */
	readonly area: number;
}

/** The shape of a group of components. */
export function shapeOf(components: readonly Component[]): Shape {
	const left = Math.min(...components.map((c) => c.left));
	const top = Math.min(...components.map((c) => c.top));
	const right = Math.max(...components.map((c) => c.right));
	const bottom = Math.max(...components.map((c) => c.bottom));
	const scale = Math.max(1, Math.ceil(Math.sqrt(((right - left) * (bottom - top)) / MOST_PIXELS)));
	const width = Math.ceil((right - left) / scale) + 2;
	const height = Math.ceil((bottom - top) / scale) + 2;
	const bits = new Uint8Array(width * height);
	let area = 0;
	for (const { xs, ys, darks, peak } of components) {
		const least = peak * EDGE_SHARE;
		for (let i = 0; i < xs.length; i++) {
			const dark = darks[i] as number;
			if (dark > 0 && dark < least) continue;
			const x = (((xs[i] as number) - left) / scale) | 0;
			const y = (((ys[i] as number) - top) / scale) | 0;
			const at = (y + 1) * width + x + 1;
			if (bits[at] === 1) continue;
			bits[at] = 1;
			area += 1;
		}
	}
	return { left, top, scale, width, height, bits, area };
}
