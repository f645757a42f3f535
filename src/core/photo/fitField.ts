import { solve } from './homography';
import { Neighbours } from './neighbours';
import { flatField, NODE_PX, type Field } from './pageMap';

/**
 * Where a part of the print lies: its place on the page and the shift found there, in page pixels. Each direction weighs
 * for itself: a line says where it lies across and nothing of where along.
 */
export interface Measured {
	readonly x: number;
	readonly y: number;
	readonly dx: number;
	readonly dy: number;
	readonly weightX: number;
	readonly weightY: number;
}

/**
 * The sheet may bend along these lines, as shares of its width and height: halves, thirds and quarters are where
 * letters are folded, and the lines between take what is folded elsewhere.
 */
const DOWN_SHARES = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11].map((part) => part / 12 - 0.5);
const ACROSS_SHARES = [1, 2, 3, 4, 5, 6, 7].map((part) => part / 8 - 0.5);

/** A quadratic in x and y for what is curled, and a bend at each line, alike or different at its two ends. */
const SMOOTH_TERMS = 8;
const ACROSS_TERMS = SMOOTH_TERMS + 2 * DOWN_SHARES.length;
const TERMS = ACROSS_TERMS + 2 * ACROSS_SHARES.length;

/**
 * How much each bend is asked to be none, so that few measures suffice and most lines stay straight. Were a bend dearer, a
 * fold would be shared out among its neighbours, which costs less by squares, and its sides would lie 2 pixels off.
 */
const SMOOTH_COSTS = 1e-4;
const BEND_COSTS = 5e-5;

/** Beyond this multiple of the usual error a measure is taken for a mistake (Tukey's biweight, with 1.4826 for the MAD). */
const TUKEY = 4.7;
const MAD_TO_SIGMA = 1.4826;

/** A measure is never better than this, in pixels: errors all but nought would make every other a mistake. */
const LEAST_ERROR_PX = 0.25;

/** The field through scattered measures, and how far each measure that was believed is off it, in pixels. */
export interface Fitted {
	readonly field: Field;
	readonly left: readonly number[];
}

/**
 * A smooth field through measures some of which are mistaken: curls and folds of the whole page, then
 * what is left averaged over `softPx` around each node.
 */
export function fitField(measured: readonly Measured[], widthPx: number, heightPx: number, softPx: number): Fitted {
	const field = flatField(widthPx, heightPx);
	const terms = measured.map(({ x, y }) => termsAt(x / widthPx - 0.5, y / heightPx - 0.5));
	const near = new Neighbours(measured, widthPx, heightPx, softPx);
	const across = fitAxis(
		field,
		0,
		terms,
		measured.map(({ dx }) => dx),
		measured.map(({ weightX }) => weightX),
		near
	);
	const down = fitAxis(
		field,
		1,
		terms,
		measured.map(({ dy }) => dy),
		measured.map(({ weightY }) => weightY),
		near
	);
	const left = across.map((one, i) => Math.hypot(one, down[i] as number));
	return { field, left: left.filter((one) => one > 0) };
}

/** Sets the field along one axis, and says how far each measure that was believed is off; 0 for the others. */
function fitAxis(
	field: Field,
	axis: 0 | 1,
	terms: readonly Float64Array[],
	shifts: readonly number[],
	weights: readonly number[],
	near: Neighbours
): readonly number[] {
	let bent = fitTerms(terms, shifts, weights);
	const restOf = (own: Float64Array) => shifts.map((shift, i) => shift - valueOf(own, terms[i] as Float64Array));
	for (let round = 0; round < 2; round++) bent = fitTerms(terms, shifts, trusted(weights, restOf(bent), 3));
	const rest = restOf(bent);
	// A dent may leave the page's curve by more than its usual error: only its own neighbours judge a measure here.
	let trust = weights;
	let left: readonly number[] = [];
	for (let round = 0; round < 2; round++) {
		left = rest.map((one, i) => one - near.averageAround(i, rest, trust));
		trust = trusted(weights, left, 1);
	}
	bendInPlace(field, axis, bent, near.widthPx, near.heightPx);
	addAverages(field, axis, near, rest, trust);
	return left.map((one, i) => ((trust[i] as number) > 0 ? Math.abs(one) : 0));
}

/** Averages are taken this share of `softPx` apart: between, they hardly bend. */
const COARSE_SHARE = 0.7;

/** Adds what is left, averaged around places somewhat less than a `softPx` apart and in proportion between. */
function addAverages(
	{ columns: nodes, rows: nodeRows, shifts }: Field,
	axis: 0 | 1,
	near: Neighbours,
	rest: readonly number[],
	trust: readonly number[]
): void {
	const step = near.softPx * COARSE_SHARE;
	const columns = Math.ceil(near.widthPx / step) + 2;
	const rows = Math.ceil(near.heightPx / step) + 2;
	const values = new Float32Array(columns * rows);
	for (let row = 0; row < rows; row++)
		for (let column = 0; column < columns; column++)
			values[row * columns + column] = near.averageAt(column * step, row * step, rest, trust);
	for (let row = 0, at = axis; row < nodeRows; row++) {
		const y = (row * NODE_PX) / step;
		const wy = y - Math.floor(y);
		const upper = Math.floor(y) * columns;
		for (let column = 0; column < nodes; column++, at += 2) {
			const x = (column * NODE_PX) / step;
			const wx = x - Math.floor(x);
			const k = upper + Math.floor(x);
			const below = k + columns;
			shifts[at] =
				(shifts[at] as number) +
				(1 - wy) * ((1 - wx) * (values[k] as number) + wx * (values[k + 1] as number)) +
				wy * ((1 - wx) * (values[below] as number) + wx * (values[below + 1] as number));
		}
	}
}

/** Sets the field to the curls and folds. Every term is one of x times one of y, so rows and columns are worked out once. */
function bendInPlace(field: Field, axis: 0 | 1, own: Float64Array, widthPx: number, heightPx: number): void {
	const [c0, c1, c2, c3, c4, c5, c6, c7] = own as unknown as readonly [
		number,
		number,
		number,
		number,
		number,
		number,
		number,
		number
	];
	// A row is base + slope * x + curve * x * x, and what the columns add, some of it times y.
	const columnBase = new Float64Array(field.columns);
	const columnSlope = new Float64Array(field.columns);
	for (let column = 0; column < field.columns; column++) {
		const x = (column * NODE_PX) / widthPx - 0.5;
		ACROSS_SHARES.forEach((line, i) => {
			const past = Math.max(0, x - line);
			const at = ACROSS_TERMS + 2 * i;
			columnBase[column] = (columnBase[column] as number) + past * (own[at] as number);
			columnSlope[column] = (columnSlope[column] as number) + past * (own[at + 1] as number);
		});
	}
	for (let row = 0; row < field.rows; row++) {
		const y = (row * NODE_PX) / heightPx - 0.5;
		let base = c0 + c2 * y + c5 * y * y;
		let slope = c1 + c3 * y + c7 * y * y;
		const curve = c4 + c6 * y;
		DOWN_SHARES.forEach((line, i) => {
			const past = Math.max(0, y - line);
			base += past * (own[SMOOTH_TERMS + 2 * i] as number);
			slope += past * (own[SMOOTH_TERMS + 2 * i + 1] as number);
		});
		for (let column = 0; column < field.columns; column++) {
			const x = (column * NODE_PX) / widthPx - 0.5;
			field.shifts[2 * (row * field.columns + column) + axis] =
				base + (slope + curve * x) * x + (columnBase[column] as number) + (columnSlope[column] as number) * y;
		}
	}
}

function termsAt(x: number, y: number): Float64Array {
	const terms = new Float64Array(TERMS);
	terms.set([1, x, y, x * y, x * x, y * y, x * x * y, x * y * y]);
	let at = SMOOTH_TERMS;
	for (const line of DOWN_SHARES) {
		const past = Math.max(0, y - line);
		terms[at++] = past;
		terms[at++] = past * x;
	}
	for (const line of ACROSS_SHARES) {
		const past = Math.max(0, x - line);
		terms[at++] = past;
		terms[at++] = past * y;
	}
	return terms;
}

/** The terms' coefficients: least squares with a small cost for every term. */
function fitTerms(terms: readonly Float64Array[], shifts: readonly number[], weights: readonly number[]): Float64Array {
	const products = new Float64Array(TERMS * TERMS);
	const right = new Float64Array(TERMS);
	for (let k = 0; k < shifts.length; k++) {
		const own = terms[k] as Float64Array;
		const weight = weights[k] as number;
		if (weight === 0) continue;
		// Before its line a bend is nothing, so of either kind only the first ones are there.
		const downEnd = pastEnd(own, SMOOTH_TERMS, ACROSS_TERMS);
		const acrossEnd = pastEnd(own, ACROSS_TERMS, TERMS);
		const shift = shifts[k] as number;
		for (let i = 0; i < downEnd; i++) {
			const share = weight * (own[i] as number);
			addRow(products, i * TERMS, share, own, i, downEnd);
			addRow(products, i * TERMS, share, own, ACROSS_TERMS, acrossEnd);
			right[i] = (right[i] as number) + share * shift;
		}
		for (let i = ACROSS_TERMS; i < acrossEnd; i++) {
			const share = weight * (own[i] as number);
			addRow(products, i * TERMS, share, own, i, acrossEnd);
			right[i] = (right[i] as number) + share * shift;
		}
	}
	const rows = new Float64Array(TERMS * (TERMS + 1));
	for (let i = 0; i < TERMS; i++) {
		for (let j = 0; j < TERMS; j++)
			rows[i * (TERMS + 1) + j] = products[Math.min(i, j) * TERMS + Math.max(i, j)] as number;
		const at = i * (TERMS + 1);
		rows[at + i] = (rows[at + i] as number) + (i < SMOOTH_TERMS ? SMOOTH_COSTS : BEND_COSTS);
		rows[at + TERMS] = right[i] as number;
	}
	return solve(rows, TERMS) ?? new Float64Array(TERMS);
}

function addRow(
	products: Float64Array,
	base: number,
	share: number,
	own: Float64Array,
	start: number,
	end: number
): void {
	for (let j = start; j < end; j++) products[base + j] = (products[base + j] as number) + share * (own[j] as number);
}

/** Where the bends that a place is past end, of those from `start` on: they are in the order of their lines, two terms each. */
function pastEnd(terms: Float64Array, start: number, end: number): number {
	let at = start;
	while (at < end && (terms[at] as number) !== 0) at += 2;
	return at;
}

function valueOf(bent: Float64Array, terms: Float64Array): number {
	let value = 0;
	for (let i = 0; i < TERMS; i++) value += (bent[i] as number) * (terms[i] as number);
	return value;
}

/** The weight of each measure less what its error takes from it. `spare`: errors up to this many LEAST_ERROR_PX are usual. */
function trusted(weights: readonly number[], errors: readonly number[], spare: number): number[] {
	const sorted = errors.filter((_, i) => (weights[i] as number) > 0).map(Math.abs);
	sorted.sort((a, b) => a - b);
	const usual = Math.max(LEAST_ERROR_PX * spare, MAD_TO_SIGMA * (sorted[sorted.length >> 1] ?? 0));
	return weights.map((weight, i) => {
		const share = Math.abs(errors[i] as number) / (TUKEY * usual);
		return share >= 1 ? 0 : weight * (1 - share * share) ** 2;
	});
}
