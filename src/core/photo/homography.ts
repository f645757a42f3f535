import type { Point } from '../geometry';

/**
 * A view of one plane from another: (x, y) goes to ((a x + b y + c) / w, (d x + e y + f) / w) with
 * w = g x + h y + 1. In the order a to h.
 */
export type Homography = Float64Array;

/**
 * The homography that takes each of `from` to its partner in `to`: exactly for four points, with the least
 * squares of the algebraic error for more. Undefined where three of the points lie on one line, or too few are given.
 */
export function homographyOf(
	from: readonly Point[],
	to: readonly Point[],
	weights: readonly number[] = []
): Homography | undefined {
	const a = centred(from);
	const b = centred(to);
	const rows = new Float64Array(8 * 9);
	const add = (row: readonly number[], weight: number) => {
		for (let i = 0; i < 8; i++)
			for (let j = 0; j < 9; j++)
				rows[i * 9 + j] = (rows[i * 9 + j] as number) + weight * (row[i] as number) * (row[j] as number);
	};
	for (let i = 0; i < Math.min(from.length, to.length); i++) {
		const [p, q] = [from[i] as Point, to[i] as Point];
		const [x, y] = [(p.x - a.x) / a.size, (p.y - a.y) / a.size];
		const [u, v] = [(q.x - b.x) / b.size, (q.y - b.y) / b.size];
		const weight = weights[i] ?? 1;
		add([x, y, 1, 0, 0, 0, -u * x, -u * y, u], weight);
		add([0, 0, 0, x, y, 1, -v * x, -v * y, v], weight);
	}
	const h = solve(rows, 8);
	if (!h) return undefined;
	// From the centred and scaled planes back to those given.
	const [h0, h1, h2, h3, h4, h5, h6, h7] = h as unknown as [
		number,
		number,
		number,
		number,
		number,
		number,
		number,
		number
	];
	const back = (r0: number, r1: number, r2: number) =>
		[r0 / a.size, r1 / a.size, r2 - (r0 * a.x + r1 * a.y) / a.size] as const;
	const w = back(h6, h7, 1);
	const x = back(h0, h1, h2).map((part, i) => part * b.size + (w[i] as number) * b.x);
	const y = back(h3, h4, h5).map((part, i) => part * b.size + (w[i] as number) * b.y);
	if (Math.abs(w[2]) < 1e-9) return undefined;
	return Float64Array.from([...x, ...y, w[0], w[1]], (part) => part / w[2]);
}

/** Where a point of the first plane is seen in the second. */
export function project(h: Homography, x: number, y: number): Point {
	const w = (h[6] as number) * x + (h[7] as number) * y + 1;
	return {
		x: ((h[0] as number) * x + (h[1] as number) * y + (h[2] as number)) / w,
		y: ((h[3] as number) * x + (h[4] as number) * y + (h[5] as number)) / w
	};
}

/** How the second plane's x and y change with the first's at a point: [dx/dx, dx/dy, dy/dx, dy/dy]. */
export function slopesAt(h: Homography, x: number, y: number): readonly [number, number, number, number] {
	const w = (h[6] as number) * x + (h[7] as number) * y + 1;
	const at = project(h, x, y);
	return [
		((h[0] as number) - at.x * (h[6] as number)) / w,
		((h[1] as number) - at.x * (h[7] as number)) / w,
		((h[3] as number) - at.y * (h[6] as number)) / w,
		((h[4] as number) - at.y * (h[7] as number)) / w
	];
}

/** Numbers near one keep the equations well conditioned (R. Hartley, "In defense of the eight-point algorithm", 1997). */
function centred(points: readonly Point[]): { readonly x: number; readonly y: number; readonly size: number } {
	const count = Math.max(1, points.length);
	const x = points.reduce((sum, point) => sum + point.x, 0) / count;
	const y = points.reduce((sum, point) => sum + point.y, 0) / count;
	const size = points.reduce((sum, point) => sum + Math.hypot(point.x - x, point.y - y), 0) / count;
	return { x, y, size: size || 1 };
}

/**
 * Solves n equations of n unknowns, given row by row with the right side last, by Gauss's elimination with
 * pivots. Changes `rows`. Undefined where they do not settle every unknown.
 */
export function solve(rows: Float64Array, n: number): Float64Array | undefined {
	const width = n + 1;
	for (let column = 0; column < n; column++) {
		let pivot = column;
		for (let row = column + 1; row < n; row++)
			if (Math.abs(rows[row * width + column] as number) > Math.abs(rows[pivot * width + column] as number))
				pivot = row;
		const found = rows[pivot * width + column] as number;
		if (!(Math.abs(found) > 1e-12)) return undefined;
		for (let k = column; k < width; k++) {
			const swapped = rows[column * width + k] as number;
			rows[column * width + k] = rows[pivot * width + k] as number;
			rows[pivot * width + k] = swapped;
		}
		for (let row = 0; row < n; row++) {
			if (row === column) continue;
			const share = (rows[row * width + column] as number) / found;
			if (share === 0) continue;
			for (let k = column; k < width; k++)
				rows[row * width + k] = (rows[row * width + k] as number) - share * (rows[column * width + k] as number);
		}
	}
	return Float64Array.from({ length: n }, (_, i) => (rows[i * width + n] as number) / (rows[i * width + i] as number));
}
