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
	/** How fast the likeness falls off along x and along y, per square pixel: next to nothing along a line. */
	readonly bendX: number;
	readonly bendY: number;
}

/**
 * Where is looked: everywhere within reach; at every second place and from the best of these uphill; or from the start
 * uphill, for blocks that are all but in place.
 */
export type Search = 'everywhere' | 'widely' | 'uphill';

/**
 * The block that is looked for, shared by the functions below while one search lasts: nothing is made anew for each of the
 * thousands of blocks of a page.
 */
let block = new Uint8Array(0);
let blockSum = 0;
let blockSpread = 0;
let scores = new Float32Array(0);

/**
 * Finds the square block of `print` with its top left at (left, top) and `side` pixels to a side in `picture`, at most
 * `reach` pixels away from (left + atX, top + atY), whole pixels. The best place is told to fractions of a pixel by the
 * parabola through its neighbours. Undefined where the block is nearly blank or the search leaves the picture.
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
	search: Search = 'everywhere'
): Match | undefined {
	if (left < 0 || top < 0 || left + side > print.width || top + side > print.height) return undefined;
	takeBlock(print, left, top, side);
	const count = side * side;
	if (blockSpread < leastVariance * count) return undefined;
	const wide = 2 * reach + 1;
	if (scores.length < wide * wide) scores = new Float32Array(wide * wide);
	scores.fill(UNKNOWN, 0, wide * wide);
	const tables = tablesOf(picture);
	const [x0, y0] = [left + atX - reach, top + atY - reach];
	let best = reach * wide + reach;
	scoreAt(picture, tables, x0, y0, side, wide, best);
	if (search === 'uphill') best = climb(picture, tables, x0, y0, side, wide, best);
	else if (search === 'everywhere') {
		for (let at = 0; at < wide * wide; at++)
			if (scoreAt(picture, tables, x0, y0, side, wide, at) > (scores[best] as number)) best = at;
	} else
		for (const start of bestOfEverySecond(picture, tables, x0, y0, side, wide)) {
			const top = climb(picture, tables, x0, y0, side, wide, start);
			if ((scores[top] as number) > (scores[best] as number)) best = top;
		}
	const likeness = scores[best] as number;
	if (likeness < -1) return undefined;
	const [x, y] = [best % wide, (best / wide) | 0];
	const across = x > 0 && x < wide - 1 ? best : -1;
	const down = y > 0 && y < wide - 1 ? best : -1;
	return {
		dx: atX + x - reach + peakBetween(across, 1),
		dy: atY + y - reach + peakBetween(down, wide),
		likeness,
		bendX: bendAt(across, 1),
		bendY: bendAt(down, wide)
	};
}

/** Hills that are climbed when a block is looked for widely. */
const HILLS = 3;

/** The best places of every second row and column: no hill of likeness is so narrow that it lies between. */
function bestOfEverySecond(
	picture: GreyImage,
	tables: Tables,
	left: number,
	top: number,
	side: number,
	wide: number
): readonly number[] {
	const found: number[] = [];
	const first = ((wide - 1) >> 1) & 1;
	for (let y = first; y < wide; y += 2)
		for (let x = first; x < wide; x += 2) {
			const at = y * wide + x;
			const score = scoreAt(picture, tables, left, top, side, wide, at);
			const last = found.length < HILLS ? -Infinity : (scores[found[HILLS - 1] as number] as number);
			if (score <= last) continue;
			if (found.length === HILLS) found.pop();
			found.push(at);
			found.sort((a, b) => (scores[b] as number) - (scores[a] as number));
		}
	return found;
}

/** Uphill from a place, until no neighbour is better. */
function climb(
	picture: GreyImage,
	tables: Tables,
	left: number,
	top: number,
	side: number,
	wide: number,
	start: number
): number {
	let best = start;
	scoreAt(picture, tables, left, top, side, wide, best);
	for (let moved = true; moved;) {
		moved = false;
		const [x, y] = [best % wide, (best / wide) | 0];
		for (let sy = Math.max(0, y - 1); sy <= Math.min(wide - 1, y + 1); sy++)
			for (let sx = Math.max(0, x - 1); sx <= Math.min(wide - 1, x + 1); sx++)
				if (scoreAt(picture, tables, left, top, side, wide, sy * wide + sx) > (scores[best] as number)) {
					best = sy * wide + sx;
					moved = true;
				}
	}
	return best;
}

function takeBlock({ width, data }: GreyImage, left: number, top: number, side: number): void {
	if (block.length < side * side) block = new Uint8Array(side * side);
	let [sum, squares, to] = [0, 0, 0];
	for (let y = 0; y < side; y++)
		for (let x = 0, at = (top + y) * width + left; x < side; x++, at++, to++) {
			const grey = data[at] as number;
			block[to] = grey;
			sum = (sum + grey) | 0;
			squares = (squares + Math.imul(grey, grey)) | 0;
		}
	blockSum = sum;
	blockSpread = squares - (sum * sum) / (side * side);
}

/** Correlation of the block with the picture at one place of the search, kept in `scores`. */
function scoreAt(
	{ width, height, data }: GreyImage,
	{ totals, squares }: Tables,
	left: number,
	top: number,
	side: number,
	wide: number,
	at: number
): number {
	const known = scores[at] as number;
	if (known !== UNKNOWN) return known;
	const x0 = left + (at % wide);
	const y0 = top + ((at / wide) | 0);
	if (x0 < 0 || y0 < 0 || x0 + side > width || y0 + side > height) return (scores[at] = OUTSIDE);
	const products = productsWith(data, y0 * width + x0, width, side);
	const count = side * side;
	const total = within(totals, width + 1, x0, y0, side);
	const spread = within(squares, width + 1, x0, y0, side) - (total * total) / count;
	const score = spread > count ? (products - (total * blockSum) / count) / Math.sqrt(spread * blockSpread) : 0;
	return (scores[at] = Math.fround(score));
}

/** The sum of grey times grey over the block; four at once, because this is most of the work of laying a photo on its print. */
function productsWith(data: Uint8Array, from: number, width: number, side: number): number {
	const own = block;
	const fours = side & ~3;
	let sum = 0;
	let to = 0;
	for (let y = 0; y < side; y++, from += width) {
		let at = from;
		const end = from + fours;
		for (; at < end; at += 4, to += 4)
			sum =
				(sum +
					Math.imul(data[at] as number, own[to] as number) +
					Math.imul(data[at + 1] as number, own[to + 1] as number) +
					Math.imul(data[at + 2] as number, own[to + 2] as number) +
					Math.imul(data[at + 3] as number, own[to + 3] as number)) |
				0;
		for (; at < from + side; at++, to++) sum = (sum + Math.imul(data[at] as number, own[to] as number)) | 0;
	}
	return sum;
}

/** How much less the scores beside the best one are than it is; 0 at the search's edge, where `best` is -1. */
function bendAt(best: number, step: number): number {
	if (best < 0) return 0;
	const [before, after] = [scores[best - step] as number, scores[best + step] as number];
	return before < -1 || after < -1 ? 0 : 2 * (scores[best] as number) - before - after;
}

/** Where the parabola through three neighbouring scores is highest, from -0.5 to 0.5 of a step; 0 where there is no bend. */
function peakBetween(best: number, step: number): number {
	const bend = bendAt(best, step);
	if (bend <= 0) return 0;
	const rise = (scores[best + step] as number) - (scores[best - step] as number);
	return Math.max(-0.5, Math.min(0.5, rise / (2 * bend)));
}

/**
 * For each pixel the sum of all above and to its left, of greys and of their squares. Sums of squares run over 32 bits;
 * differences of them over a block do not, and come out right.
 */
interface Tables {
	readonly totals: Int32Array;
	readonly squares: Int32Array;
}

const tables = new WeakMap<GreyImage, Tables>();

/** Sums over any square of a picture in four steps (F. Crow, "Summed-area tables for texture mapping", 1984). */
function tablesOf(picture: GreyImage): Tables {
	const known = tables.get(picture);
	if (known) return known;
	const { width, height, data } = picture;
	const stride = width + 1;
	const totals = new Int32Array(stride * (height + 1));
	const squares = new Int32Array(stride * (height + 1));
	for (let y = 0; y < height; y++) {
		let total = 0;
		let square = 0;
		let at = (y + 1) * stride + 1;
		for (let x = y * width; x < (y + 1) * width; x++, at++) {
			const grey = data[x] as number;
			total = (total + grey) | 0;
			square = (square + Math.imul(grey, grey)) | 0;
			totals[at] = (totals[at - stride] as number) + total;
			squares[at] = ((squares[at - stride] as number) + square) | 0;
		}
	}
	const made = { totals, squares };
	tables.set(picture, made);
	return made;
}

function within(table: Int32Array, stride: number, x: number, y: number, side: number): number {
	const top = y * stride + x;
	const bottom = top + Math.imul(side, stride);
	return (
		((table[bottom + side] as number) -
			(table[bottom] as number) -
			(table[top + side] as number) +
			(table[top] as number)) |
		0
	);
}
