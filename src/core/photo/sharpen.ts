import { MOST_PX, sigmaOf, TILE_PX, weightsOf, type BlurMap } from './blurMap';
import type { Inked } from './inked';

/**
 * How often the blurred result is compared with what was seen, for a blur of one pixel: the wider the blur, the more often.
 * More rounds bring noise up and cut the edges of ink, fewer leave it pale and wide. Found by trial, so that ink covers as
 * much of a target as on the flat page.
 */
const ROUNDS_AT_ONE = 8;
const LEAST_ROUNDS = 2;
const MOST_ROUNDS = 24;

/** How much of the difference is added each time: over 1, because what is missing comes back slowly. */
const GAIN = 1.7;

/** Ink so far outside a tile still has a say in it, in pixels. */
const MARGIN_PX = 12;

/** Top left of a tile. */
export interface Tile {
	readonly left: number;
	readonly top: number;
}

/**
 * Takes the blur off what was found on a page, in the tiles that have any of it, which it returns: each round adds what is
 * missing when the result is blurred again (P. H. van Cittert, "Zum Einfluss der Spaltbreite auf die
 * Intensitätsverteilung in Spektrallinien", 1931).
 */
export function sharpenInPlace({ width, height, passed, tiles }: Inked, blur: BlurMap): readonly Tile[] {
	const inked: Tile[] = [];
	tiles.forEach((has, i) => {
		if (has === 1) inked.push({ left: (i % blur.columns) * TILE_PX, top: Math.floor(i / blur.columns) * TILE_PX });
	});
	const seen = new Map<Tile, Part>();
	for (const tile of inked) seen.set(tile, partOf(passed, width, height, tile));
	// Only when all are taken, because the tiles beside are sharpened from what was seen.
	for (const [{ left, top }, part] of seen) {
		const at = (top / TILE_PX) * blur.columns + left / TILE_PX;
		const [across, down] = [blur.across[at] as number, blur.down[at] as number];
		sharpenPart(part, weightsOf(across), weightsOf(down), roundsFor(sigmaOf(across) * sigmaOf(down)));
		const right = Math.min(width, left + TILE_PX, part.left + part.wide);
		const bottom = Math.min(height, top + TILE_PX, part.top + part.high);
		for (let y = Math.max(top, part.top); y < bottom; y++)
			for (let x = Math.max(left, part.left); x < right; x++)
				passed[y * width + x] = 1 - (part.taken[(y - part.top) * part.wide + x - part.left] as number);
	}
	return inked;
}

/** A part of the page around the ink of a tile, and the share of the light that is taken there. */
interface Part extends Tile {
	readonly wide: number;
	readonly high: number;
	readonly taken: Float32Array;
}

/** The box around the ink in a tile and MARGIN_PX around the tile, and as much around that box: there, nothing is taken. */
function partOf(passed: Float32Array, width: number, height: number, tile: Tile): Part {
	const [fromX, fromY] = [Math.max(0, tile.left - MARGIN_PX), Math.max(0, tile.top - MARGIN_PX)];
	const [toX, toY] = [
		Math.min(width, tile.left + TILE_PX + MARGIN_PX),
		Math.min(height, tile.top + TILE_PX + MARGIN_PX)
	];
	let [left, right, top, bottom] = [toX, fromX, toY, fromY];
	for (let y = fromY; y < toY; y++)
		for (let x = fromX; x < toX; x++) {
			if ((passed[y * width + x] as number) === 1) continue;
			if (x < left) left = x;
			if (x >= right) right = x + 1;
			if (y < top) top = y;
			bottom = y + 1;
		}
	const [wide, high] = [Math.max(0, right - left) + 2 * MARGIN_PX, Math.max(0, bottom - top) + 2 * MARGIN_PX];
	const taken = new Float32Array(wide * high);
	for (let y = top; y < bottom; y++)
		for (let x = left, to = (y - top + MARGIN_PX) * wide + MARGIN_PX; x < right; x++, to++)
			taken[to] = 1 - (passed[y * width + x] as number);
	return { left: left - MARGIN_PX, top: top - MARGIN_PX, wide, high, taken };
}

const roundsFor = (square: number): number =>
	Math.round(Math.max(LEAST_ROUNDS, Math.min(MOST_ROUNDS, ROUNDS_AT_ONE * square)));

/** All rounds on one part. So near its edge that the blur reaches over it nothing is changed. */
function sharpenPart({ wide, high, taken }: Part, across: Float32Array, down: Float32Array, rounds: number): void {
	const start = taken.slice();
	const once = new Float32Array(wide * high);
	const [reachX, reachY] = [across.length - 1, down.length - 1];
	const [middleX, middleY] = [across[0] as number, down[0] as number];
	for (let round = 0; round < rounds; round++) {
		for (let y = 0; y < high; y++)
			for (let at = y * wide + reachX, end = (y + 1) * wide - reachX; at < end; at++) {
				let sum = middleX * (taken[at] as number);
				for (let k = 1; k <= reachX; k++)
					sum += (across[k] as number) * ((taken[at - k] as number) + (taken[at + k] as number));
				once[at] = sum;
			}
		for (let y = reachY; y < high - reachY; y++)
			for (let at = y * wide + reachX, end = (y + 1) * wide - reachX; at < end; at++) {
				let sum = middleY * (once[at] as number);
				for (let k = 1, by = wide; k <= reachY; k++, by += wide)
					sum += (down[k] as number) * ((once[at - by] as number) + (once[at + by] as number));
				const sharper = (taken[at] as number) + GAIN * ((start[at] as number) - sum);
				taken[at] = sharper < 0 ? 0 : sharper > 1 ? 1 : sharper;
			}
	}
}

if (MOST_PX * 3 > MARGIN_PX) throw new RangeError('sharpen: MARGIN_PX must hold the widest blur');
