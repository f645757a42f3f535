import { slopesAt } from './homography';
import { shiftAt, type PageMap } from './pageMap';

/** Side of the squares within which the blur is taken as the same, in pixels of the 200 dpi page. */
export const TILE_PX = 64;

/** Blurs are told in steps of so many pixels, and never less or more than a page can be compared with. */
const STEP_PX = 0.05;
const LEAST_PX = 0.3;
export const MOST_PX = 4;

/**
 * Standard deviation of the blur along x and along y in each tile of a page, in steps of STEP_PX. A photo is equally blurred
 * all over, so the page is less blurred where it is nearer to the camera, and more so in the direction that looks shorter.
 */
export interface BlurMap {
	readonly columns: number;
	readonly rows: number;
	readonly across: Uint8Array;
	readonly down: Uint8Array;
}

/** `sigmaInPhoto`: standard deviation of the blur in pixels of the photo. */
export function blurMapOf(map: PageMap, sigmaInPhoto: number): BlurMap {
	const columns = Math.ceil(map.widthPx / TILE_PX);
	const rows = Math.ceil(map.heightPx / TILE_PX);
	const across = new Uint8Array(columns * rows);
	const down = new Uint8Array(columns * rows);
	for (let row = 0, at = 0; row < rows; row++)
		for (let column = 0; column < columns; column++, at++) {
			const [x, y] = [(column + 0.5) * TILE_PX, (row + 0.5) * TILE_PX];
			const [dx, dy] = shiftAt(map.field, x, y);
			const [a, b, c, d] = slopesAt(map.view, x + dx, y + dy);
			const area = Math.abs(a * d - b * c);
			across[at] = stepOf((sigmaInPhoto * Math.hypot(b, d)) / area);
			down[at] = stepOf((sigmaInPhoto * Math.hypot(a, c)) / area);
		}
	return { columns, rows, across, down };
}

const stepOf = (sigma: number): number => Math.round(Math.max(LEAST_PX, Math.min(MOST_PX, sigma)) / STEP_PX);

/** Standard deviation, in pixels, of a blur of so many steps. */
export const sigmaOf = (steps: number): number => steps * STEP_PX;

const kept: Float32Array[] = [];

/** The weights of a blur of so many steps on one side of its middle, the middle first. */
export function weightsOf(steps: number): Float32Array {
	const known = kept[steps];
	if (known) return known;
	return (kept[steps] = blurWeights(sigmaOf(steps)));
}

/** The weights of a normal blur on one side of its middle, the middle first. `sigma` in pixels. */
export function blurWeights(sigma: number): Float32Array {
	const reach = Math.max(1, Math.ceil(3 * sigma));
	const weights = Float32Array.from({ length: reach + 1 }, (_, i) => Math.exp(-(i * i) / (2 * sigma * sigma)));
	const sum = weights.reduce((total, weight, i) => total + (i === 0 ? 1 : 2) * weight, 0);
	return weights.map((weight) => weight / sum);
}
