import { blurWeights } from './blur';

/** Side of the tiles in which a page is worked on where there is ink, in pixels. */
export const TILE_PX = 64;

/** How often the blurred result is compared with what was seen. More rounds bring noise up, fewer leave ink pale. */
const ROUNDS = 4;

/** Top left of a tile. */
export interface Tile {
	readonly left: number;
	readonly top: number;
}

/**
 * Takes a normal blur of `sigma` pixels off `passed` (shares of light, 1 for none taken) in the tiles where `inked` is 1,
 * which it returns: each round adds what is missing when the result is blurred again (P. H. van
 * Cittert, "Zum Einfluss der Spaltbreite auf die Intensitätsverteilung in Spektrallinien", 1931).
 */
export function sharpenInPlace(
	passed: Float32Array,
	width: number,
	height: number,
	inked: Uint8Array,
	sigma: number
): readonly Tile[] {
	const across = Math.ceil(width / TILE_PX);
	const down = Math.ceil(height / TILE_PX);
	const tiles: Tile[] = [];
	for (let row = 0; row < down; row++)
		for (let column = 0; column < across; column++)
			if (inked[row * across + column] === 1) tiles.push({ left: column * TILE_PX, top: row * TILE_PX });
	const seen = passed.slice();
	const weights = blurWeights(sigma);
	const reach = weights.length - 1;
	const side = TILE_PX + 2 * reach * ROUNDS;
	const own = new Float32Array(side * side);
	const start = new Float32Array(side * side);
	const once = new Float32Array(side * side);
	for (const { left, top } of tiles) {
		const margin = reach * ROUNDS;
		for (let y = 0; y < side; y++)
			for (let x = 0; x < side; x++) {
				const [px, py] = [left + x - margin, top + y - margin];
				own[y * side + x] = px < 0 || py < 0 || px >= width || py >= height ? 1 : (seen[py * width + px] as number);
			}
		start.set(own);
		for (let round = 1; round <= ROUNDS; round++) sharpenOnce(own, start, once, side, weights, reach * round);
		for (let y = 0; y < TILE_PX && top + y < height; y++)
			for (let x = 0; x < TILE_PX && left + x < width; x++)
				passed[(top + y) * width + left + x] = own[(y + margin) * side + x + margin] as number;
	}
	return tiles;
}

/** One round, on all of the square but `edge` pixels around it. */
function sharpenOnce(
	own: Float32Array,
	start: Float32Array,
	once: Float32Array,
	side: number,
	weights: Float32Array,
	edge: number
): void {
	const reach = weights.length - 1;
	const [from, to] = [edge, side - edge];
	for (let y = from - reach; y < to + reach; y++)
		for (let x = from; x < to; x++) {
			const at = y * side + x;
			let sum = (weights[0] as number) * (own[at] as number);
			for (let k = 1; k <= reach; k++)
				sum += (weights[k] as number) * ((own[at - k] as number) + (own[at + k] as number));
			once[at] = sum;
		}
	for (let y = from; y < to; y++)
		for (let x = from; x < to; x++) {
			const at = y * side + x;
			let sum = (weights[0] as number) * (once[at] as number);
			for (let k = 1; k <= reach; k++)
				sum += (weights[k] as number) * ((once[at - k * side] as number) + (once[at + k * side] as number));
			const sharper = (own[at] as number) + (start[at] as number) - sum;
			own[at] = sharper < 0 ? 0 : sharper > 1 ? 1 : sharper;
		}
}
