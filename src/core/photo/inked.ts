import type { GreyImage } from '../image';
import { TILE_PX } from './blurMap';

/** Where something lies on a page besides its print. */
export interface Inked {
	readonly width: number;
	readonly height: number;
	/** The share of the light that passes at each pixel: 1 where nothing lies. */
	readonly passed: Float32Array;
	/** 1 for each tile of the page, TILE_PX to a side, that has any pixel under 1. */
	readonly tiles: Uint8Array;
}

/**
 * Ink that hangs together takes at least so much light, in pixels of full black: a dot of half a millimetre takes five
 * times as much. Beside print, where the photo and the print never quite agree, darkness weighs less.
 */
const LEAST_MASS = 2;
const BESIDE_PRINT = 0.25;

/** Clears what hangs together and is too little to be ink: noise, and the rims of letters. `soft`: the print as blurred as the photo. */
export function clearSpecksInPlace({ width, height, passed, tiles }: Inked, soft: GreyImage, white: number): void {
	const across = Math.ceil(width / TILE_PX);
	const seen = new Uint8Array(passed.length);
	const stack: number[] = [];
	const own: number[] = [];
	const kept = new Uint8Array(tiles.length);
	for (let tile = 0; tile < tiles.length; tile++) {
		if (tiles[tile] === 0) continue;
		const [left, top] = [(tile % across) * TILE_PX, Math.floor(tile / across) * TILE_PX];
		for (let y = Math.max(1, top); y < Math.min(height - 1, top + TILE_PX); y++)
			for (
				let start = y * width + Math.max(1, left), end = y * width + Math.min(width - 1, left + TILE_PX);
				start < end;
				start++
			) {
				if ((passed[start] as number) === 1 || seen[start] === 1) continue;
				seen[start] = 1;
				stack.push(start);
				own.length = 0;
				let mass = 0;
				while (stack.length > 0) {
					const at = stack.pop() as number;
					own.push(at);
					const weight = (soft.data[at] as number) >= white - 1 ? 1 : BESIDE_PRINT;
					mass += weight * (1 - (passed[at] as number));
					for (let row = at - width; row <= at + width; row += width)
						for (let next = row - 1; next <= row + 1; next++) {
							if (seen[next] !== 0 || (passed[next] as number) === 1) continue;
							seen[next] = 1;
							stack.push(next);
						}
				}
				const isInk = mass >= LEAST_MASS;
				for (const at of own)
					if (isInk) kept[Math.floor(at / width / TILE_PX) * across + Math.floor((at % width) / TILE_PX)] = 1;
					else passed[at] = 1;
			}
	}
	tiles.set(kept);
}
