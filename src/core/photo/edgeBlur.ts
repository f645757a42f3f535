import type { GreyImage } from '../image';

/** How far to each side of an edge is looked, in pixels, and the least step in grey that is one. */
const WIDE_PX = 4;
const LEAST_STEP = 24;

/** So many edges are needed to say anything. */
const LEAST_EDGES = 200;

/**
 * How steep the edges of a picture are: the greatest step over two pixels as a share of that over eight, in the middle of
 * all its edges. A sharp edge gives nearly 1, one blurred by 1.5 pixels a half, one by 3 pixels a third. Undefined
 * where there are hardly any edges.
 */
export function steepnessOf({ width, height, data }: GreyImage): number | undefined {
	const counts = new Uint32Array(101);
	let edges = 0;
	for (let y = WIDE_PX; y < height - WIDE_PX; y += 3)
		for (let x = 2 * WIDE_PX; x < width - 2 * WIDE_PX; x += 2) {
			const at = y * width + x;
			const step = stepAt(data, at, WIDE_PX);
			// The middle of an edge: no step beside it is greater.
			if (step < LEAST_STEP || stepAt(data, at - 2, WIDE_PX) > step || stepAt(data, at + 2, WIDE_PX) > step) continue;
			let steepest = 0;
			for (let beside = -WIDE_PX; beside <= WIDE_PX; beside++)
				steepest = Math.max(steepest, stepAt(data, at + beside, 1));
			const share = Math.min(100, Math.round((100 * steepest) / step));
			counts[share] = (counts[share] as number) + 1;
			edges += 1;
		}
	if (edges < LEAST_EDGES) return undefined;
	let below = 0;
	for (let share = 0; share <= 100; share++) {
		below += counts[share] as number;
		if (below >= edges / 2) return share / 100;
	}
	return 1;
}

const stepAt = (data: Uint8Array, at: number, by: number): number =>
	Math.abs((data[at + by] as number) - (data[at - by] as number));
