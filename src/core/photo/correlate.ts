import type { GreyImage } from '../image';

/** Scores of places not yet looked at, and of those where the block would leave the picture. */
const UNKNOWN = -3;
const OUTSIDE = -2;

/** Where a block of the print is found again in a picture of the page. */
export interface Match {
	/** Shift from where the print has it, in pixels. */
	readonly dx: number;
	readonly dy: number;
	/** Correlation there, from -1 to 1: 1 where picture and print differ by light and contrast only. */
	readonly likeness: number;
}

/**
 * Finds the square block of `print` with its top left at (left, top) and `side` pixels to a side in `picture`, at most
 * `reach` pixels away from (left + atX, top + atY), whole pixels. The best place is told to fractions of a pixel by the
 * parabola through its neighbours. `search`: everywhere within reach, or from the start uphill, for blocks that are all but
 * in place. Undefined where the block is nearly blank or the search leaves the picture.
 */
export function findBlock(
	print: GreyImage,
	picture: GreyImage,
	left: number,
	top: number,
	side: number,
	atX: number,
	atY: number,
	reach: number,
	leastVariance: number,
	search: 'everywhere' | 'uphill' = 'everywhere'
): Match | undefined {
	if (left < 0 || top < 0 || left + side > print.width || top + side > print.height) return undefined;
	const count = side * side;
	const values = blockValues(count);
	let sum = 0;
	for (let y = 0; y < side; y++)
		for (let x = 0, at = (top + y) * print.width + left; x < side; x++, at++) {
			const value = print.data[at] as number;
			values[y * side + x] = value;
			sum += value;
		}
	const mean = sum / count;
	let variance = 0;
	for (let i = 0; i < count; i++) {
		const value = (values[i] as number) - mean;
		values[i] = value;
		variance += value * value;
	}
	if (variance < leastVariance * count) return undefined;
	const wide = 2 * reach + 1;
	const scores = new Float64Array(wide * wide).fill(UNKNOWN);
	const { totals, squares } = tablesOf(picture);
	const { width, height, data } = picture;
	const stride = width + 1;
	const scoreAt = (sx: number, sy: number): number => {
		const at = (sy + reach) * wide + sx + reach;
		const known = scores[at] as number;
		if (known !== UNKNOWN) return known;
		const x0 = left + atX + sx;
		const y0 = top + atY + sy;
		if (x0 < 0 || y0 < 0 || x0 + side > width || y0 + side > height) return (scores[at] = OUTSIDE);
		let products = 0;
		for (let y = 0; y < side; y++) {
			const from = (y0 + y) * width + x0;
			const base = y * side;
			for (let x = 0; x < side; x++) products += (data[from + x] as number) * (values[base + x] as number);
		}
		const total = within(totals, stride, x0, y0, side);
		const spread = within(squares, stride, x0, y0, side) - (total * total) / count;
		return (scores[at] = spread > count ? products / Math.sqrt(spread * variance) : 0);
	};
	let [bestX, bestY] = [0, 0];
	if (search === 'everywhere') {
		for (let sy = -reach; sy <= reach; sy++)
			for (let sx = -reach; sx <= reach; sx++) if (scoreAt(sx, sy) > scoreAt(bestX, bestY)) [bestX, bestY] = [sx, sy];
	} else
		for (let moved = true; moved;) {
			moved = false;
			const [x, y] = [bestX, bestY];
			for (let sy = Math.max(-reach, y - 1); sy <= Math.min(reach, y + 1); sy++)
				for (let sx = Math.max(-reach, x - 1); sx <= Math.min(reach, x + 1); sx++)
					if (scoreAt(sx, sy) > scoreAt(bestX, bestY)) {
						[bestX, bestY] = [sx, sy];
						moved = true;
					}
		}
	const likeness = scoreAt(bestX, bestY);
	if (likeness < -1) return undefined;
	const best = (bestY + reach) * wide + bestX + reach;
	return {
		dx: atX + bestX + peakBetween(scores, best, 1, bestX + reach, wide),
		dy: atY + bestY + peakBetween(scores, best, wide, bestY + reach, wide),
		likeness
	};
}

/** Where the parabola through three neighbouring scores is highest, from -0.5 to 0.5 of a step; 0 at the search's edge. */
function peakBetween(scores: Float64Array, best: number, step: number, along: number, wide: number): number {
	if (along === 0 || along === wide - 1) return 0;
	const [before, at, after] = [scores[best - step] as number, scores[best] as number, scores[best + step] as number];
	if (before < -1 || after < -1) return 0;
	const bend = before - 2 * at + after;
	return bend < 0 ? Math.max(-0.5, Math.min(0.5, (before - after) / (2 * bend))) : 0;
}

let scratch = new Float32Array(0);

function blockValues(count: number): Float32Array {
	if (scratch.length < count) scratch = new Float32Array(count);
	return scratch;
}

/** For each pixel the sum of all above and to its left, of greys and of their squares. */
interface Tables {
	readonly totals: Float64Array;
	readonly squares: Float64Array;
}

const tables = new WeakMap<GreyImage, Tables>();

/** Sums over any square of a picture in four steps (F. Crow, "Summed-area tables for texture mapping", 1984). */
function tablesOf(picture: GreyImage): Tables {
	const known = tables.get(picture);
	if (known) return known;
	const { width, height, data } = picture;
	const stride = width + 1;
	const totals = new Float64Array(stride * (height + 1));
	const squares = new Float64Array(stride * (height + 1));
	for (let y = 0; y < height; y++) {
		let [total, square] = [0, 0];
		for (let x = 0; x < width; x++) {
			const grey = data[y * width + x] as number;
			total += grey;
			square += grey * grey;
			const at = (y + 1) * stride + x + 1;
			totals[at] = (totals[at - stride] as number) + total;
			squares[at] = (squares[at - stride] as number) + square;
		}
	}
	const made = { totals, squares };
	tables.set(picture, made);
	return made;
}

function within(table: Float64Array, stride: number, x: number, y: number, side: number): number {
	const top = y * stride + x;
	const bottom = top + side * stride;
	return (
		(table[bottom + side] as number) -
		(table[bottom] as number) -
		(table[top + side] as number) +
		(table[top] as number)
	);
}
