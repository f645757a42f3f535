/**
 * A stream of numbers in [0, 1) that is the same for the same seed on every device.
 * mulberry32, by Tommy Ettinger, public domain.
 */
export function randomFrom(seed: number): () => number {
	let state = seed >>> 0;
	return () => {
		state = (state + 0x6d2b79f5) >>> 0;
		let mixed = Math.imul(state ^ (state >>> 15), state | 1);
		mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)) ^ mixed;
		return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
	};
}

/** A number in [0, 1) that belongs to the pixel (x, y) under `seed`: paper grain without a stream. */
export function grainAt(x: number, y: number, seed: number): number {
	let mixed = Math.imul(x, 0x27d4eb2d) ^ Math.imul(y, 0x165667b1) ^ Math.imul(seed, 0x9e3779b1);
	mixed = Math.imul(mixed ^ (mixed >>> 15), 0x85ebca6b);
	mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35);
	return ((mixed ^ (mixed >>> 16)) >>> 0) / 4294967296;
}
