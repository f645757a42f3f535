import { solve } from './homography';
import { flatField, NODE_PX, type Field } from './pageMap';

/** Where a part of the print lies: its place on the page and the shift found there, in page pixels. */
export interface Measured {
	readonly x: number;
	readonly y: number;
	readonly dx: number;
	readonly dy: number;
	readonly weight: number;
}

/**
 * The sheet may bend along these lines, as shares of its width and height: halves, thirds and quarters are where
 * letters are folded, and the lines between take what is folded elsewhere.
 */
const DOWN_SHARES = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11].map((part) => part / 12 - 0.5);
const ACROSS_SHARES = [1, 2, 3, 4, 5, 6, 7].map((part) => part / 8 - 0.5);

/** A quadratic in x and y for what is curled, and a bend at each line, alike or different at its two ends. */
const SMOOTH_TERMS = 8;
const TERMS = SMOOTH_TERMS + 2 * DOWN_SHARES.length + 2 * ACROSS_SHARES.length;

/** How much each bend is asked to be none, so that few measures suffice and most lines stay straight. */
const SMOOTH_COSTS = 1e-4;
const BEND_COSTS = 0.002;

/** What a place without a measure near it weighs against the whole page's. */
const NOTHING_WEIGHS = 0.05;

/** Averages are taken this share of `softPx` apart: between, they hardly bend. */
const COARSE_SHARE = 0.7;

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
	const terms = measured.map(({ x, y }) => termsAt(x / widthPx - 0.5, y / heightPx - 0.5));
	let trust = measured.map(({ weight }) => weight);
	let bent = fitTerms(terms, measured, trust);
	for (let round = 0; round < 3; round++) {
		trust = trusted(
			measured,
			measured.map((one, i) => off(one, valueOf(bent, terms[i] as Float64Array))),
			3
		);
		bent = fitTerms(terms, measured, trust);
	}
	const rest = measured.map((one, i) => {
		const [dx, dy] = valueOf(bent, terms[i] as Float64Array);
		return { ...one, dx: one.dx - dx, dy: one.dy - dy };
	});
	// A dent may leave the page's curve by more than its usual error: only its own neighbours judge a measure here.
	trust = measured.map(({ weight }) => weight);
	let left: readonly number[] = [];
	for (let round = 0; round < 2; round++) {
		const near = rest.map((one, i) => averageAt(rest, trust, one.x, one.y, softPx, i));
		left = rest.map((one, i) => off(one, near[i] as readonly [number, number]));
		trust = trusted(measured, left, 1);
	}
	const field = flatField(widthPx, heightPx);
	const coarse = averages(rest, trust, widthPx, heightPx, softPx);
	for (let row = 0; row < field.rows; row++)
		for (let column = 0; column < field.columns; column++) {
			const [x, y] = [column * NODE_PX, row * NODE_PX];
			const [bx, by] = valueOf(bent, termsAt(x / widthPx - 0.5, y / heightPx - 0.5));
			const [dx, dy] = coarse(x, y);
			const at = 2 * (row * field.columns + column);
			field.shifts[at] = bx + dx;
			field.shifts[at + 1] = by + dy;
		}
	return { field, left: left.filter((_, i) => (trust[i] as number) > 0) };
}

/** What is left, averaged around places somewhat less than a `softPx` apart and in proportion between: finer it does not change. */
function averages(
	rest: readonly Measured[],
	trust: readonly number[],
	widthPx: number,
	heightPx: number,
	softPx: number
): (x: number, y: number) => readonly [number, number] {
	const step = softPx * COARSE_SHARE;
	const columns = Math.ceil(widthPx / step) + 2;
	const rows = Math.ceil(heightPx / step) + 2;
	const values = new Float32Array(2 * columns * rows);
	for (let row = 0; row < rows; row++)
		for (let column = 0; column < columns; column++) {
			const [dx, dy] = averageAt(rest, trust, column * step, row * step, softPx, -1);
			values[2 * (row * columns + column)] = dx;
			values[2 * (row * columns + column) + 1] = dy;
		}
	return (x, y) => {
		const [x0, y0] = [Math.floor(x / step), Math.floor(y / step)];
		const [wx, wy] = [x / step - x0, y / step - y0];
		const at = 2 * (y0 * columns + x0);
		const mix = (k: number) =>
			((values[at + k] as number) * (1 - wx) + (values[at + k + 2] as number) * wx) * (1 - wy) +
			((values[at + k + 2 * columns] as number) * (1 - wx) + (values[at + k + 2 * columns + 2] as number) * wx) * wy;
		return [mix(0), mix(1)];
	};
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

/** The terms' coefficients for x, then for y: least squares with a small cost for every term. */
function fitTerms(
	terms: readonly Float64Array[],
	measured: readonly Measured[],
	trust: readonly number[]
): readonly [Float64Array, Float64Array] {
	const products = new Float64Array(TERMS * TERMS);
	const right = [new Float64Array(TERMS), new Float64Array(TERMS)] as const;
	measured.forEach(({ dx, dy }, k) => {
		const own = terms[k] as Float64Array;
		const weight = trust[k] as number;
		if (weight === 0) return;
		for (let i = 0; i < TERMS; i++) {
			const share = weight * (own[i] as number);
			if (share === 0) continue;
			for (let j = i; j < TERMS; j++)
				products[i * TERMS + j] = (products[i * TERMS + j] as number) + share * (own[j] as number);
			right[0][i] = (right[0][i] as number) + share * dx;
			right[1][i] = (right[1][i] as number) + share * dy;
		}
	});
	const fit = (side: Float64Array) => {
		const rows = new Float64Array(TERMS * (TERMS + 1));
		for (let i = 0; i < TERMS; i++) {
			for (let j = 0; j < TERMS; j++)
				rows[i * (TERMS + 1) + j] = products[Math.min(i, j) * TERMS + Math.max(i, j)] as number;
			const at = i * (TERMS + 1);
			rows[at + i] = (rows[at + i] as number) + (i < SMOOTH_TERMS ? SMOOTH_COSTS : BEND_COSTS);
			rows[at + TERMS] = side[i] as number;
		}
		return solve(rows, TERMS) ?? new Float64Array(TERMS);
	};
	return [fit(right[0]), fit(right[1])];
}

function valueOf([forX, forY]: readonly [Float64Array, Float64Array], terms: Float64Array): readonly [number, number] {
	let [x, y] = [0, 0];
	for (let i = 0; i < TERMS; i++) {
		x += (forX[i] as number) * (terms[i] as number);
		y += (forY[i] as number) * (terms[i] as number);
	}
	return [x, y];
}

const off = ({ dx, dy }: Measured, [x, y]: readonly [number, number]): number => Math.hypot(dx - x, dy - y);

/** The weight of each measure less what its error takes from it. `spare`: errors up to this many pixels are usual. */
function trusted(measured: readonly Measured[], errors: readonly number[], spare: number): number[] {
	const sorted = [...errors].sort((a, b) => a - b);
	const usual = Math.max(LEAST_ERROR_PX * spare, MAD_TO_SIGMA * (sorted[sorted.length >> 1] ?? 0));
	return measured.map(({ weight }, i) => {
		const share = (errors[i] as number) / (TUKEY * usual);
		return share >= 1 ? 0 : weight * (1 - share * share) ** 2;
	});
}

/** The mean of the measures around a place, each weighing less the further off it is; without the one at `except`. */
function averageAt(
	rest: readonly Measured[],
	trust: readonly number[],
	x: number,
	y: number,
	softPx: number,
	except: number
): readonly [number, number] {
	const far = 2.5 * softPx;
	let [sum, sumX, sumY] = [NOTHING_WEIGHS, 0, 0];
	for (let i = 0; i < rest.length; i++) {
		const one = rest[i] as Measured;
		const [ax, ay] = [one.x - x, one.y - y];
		if (i === except || ax > far || ax < -far || ay > far || ay < -far) continue;
		const weight = (trust[i] as number) * Math.exp((-0.5 * (ax * ax + ay * ay)) / (softPx * softPx));
		sum += weight;
		sumX += weight * one.dx;
		sumY += weight * one.dy;
	}
	return [sumX / sum, sumY / sum];
}
