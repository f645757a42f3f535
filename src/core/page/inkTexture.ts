import type { Tool } from '../ink/stroke';
import { grainAt } from '../random';
import { INK_TOOLS } from './inkTools';

/** The texture repeats after so many pixels, a power of two: 33 mm, more than any target or line of handwriting shows. */
export const TEXTURE_PX = 256;
export const TEXTURE_MASK = TEXTURE_PX - 1;

/** The paper's tooth as one tool shows it, each value from 0 to 1, row by row, TEXTURE_PX square. */
export interface InkTexture {
	/** Single pixels and blotches mixed as the tool has it. */
	readonly grain: Float32Array;
	/** Smooth blotches alone. */
	readonly blotches: Float32Array;
}

/** Seeds are few (the app uses one), so the textures of the last few are kept. */
const KEPT_SEEDS = 4;
const kept = new Map<number, Partial<Record<Tool, InkTexture>>>();

/** The texture of a tool under a seed; made once, then looked up. */
export function inkTexture(tool: Exclude<Tool, 'eraser'>, seed: number): InkTexture {
	let ofSeed = kept.get(seed);
	if (!ofSeed) {
		if (kept.size >= KEPT_SEEDS) kept.clear();
		kept.set(seed, (ofSeed = {}));
	}
	return (ofSeed[tool] ??= make(tool, seed));
}

function make(tool: Exclude<Tool, 'eraser'>, seed: number): InkTexture {
	const { blotchPx, blotchShare } = INK_TOOLS[tool];
	const grain = new Float32Array(TEXTURE_PX * TEXTURE_PX);
	const blotches = new Float32Array(TEXTURE_PX * TEXTURE_PX);
	// Whole blotches around the texture, so that its edges meet.
	const cells = Math.round(TEXTURE_PX / blotchPx);
	const cellPx = TEXTURE_PX / cells;
	for (let y = 0; y < TEXTURE_PX; y++) {
		const row = Math.floor(y / cellPx);
		const v = y / cellPx - row;
		const below = (row + 1) % cells;
		for (let x = 0; x < TEXTURE_PX; x++) {
			const column = Math.floor(x / cellPx);
			const u = x / cellPx - column;
			const beside = (column + 1) % cells;
			const a = grainAt(column, row, seed + 3);
			const b = grainAt(beside, row, seed + 3);
			const c = grainAt(column, below, seed + 3);
			const d = grainAt(beside, below, seed + 3);
			const blotch = (a + (b - a) * u) * (1 - v) + (c + (d - c) * u) * v;
			const at = y * TEXTURE_PX + x;
			blotches[at] = blotch;
			grain[at] = blotchShare * blotch + (1 - blotchShare) * grainAt(x, y, seed);
		}
	}
	return { grain, blotches };
}
