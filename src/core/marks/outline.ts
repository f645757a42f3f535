import type { Shape } from './shape';

/** Loops smaller than this share of the box, or than so many pixels, are gaps between two lines. */
const LEAST_HOLE_SHARE = 0.01;
const LEAST_HOLE_PX = 6;

/** How many closed loops a shape has, and the area inside the largest, in its pixels. */
export function holesOf({ width, height, bits }: Shape): { count: number; largest: number } {
	const seen = bits.slice();
	const stack: number[] = [0];
	seen[0] = 1;
	const fill = (): number => {
		let area = 0;
		for (let at = stack.pop(); at !== undefined; at = stack.pop()) {
			area += 1;
			const x = at % width;
			if (x > 0 && seen[at - 1] === 0) {
				seen[at - 1] = 1;
				stack.push(at - 1);
			}
			if (x < width - 1 && seen[at + 1] === 0) {
				seen[at + 1] = 1;
				stack.push(at + 1);
			}
			if (at >= width && seen[at - width] === 0) {
				seen[at - width] = 1;
				stack.push(at - width);
			}
			if (at + width < seen.length && seen[at + width] === 0) {
				seen[at + width] = 1;
				stack.push(at + width);
			}
		}
		return area;
	};
	fill();
	const least = Math.max(LEAST_HOLE_PX, LEAST_HOLE_SHARE * width * height);
	let count = 0;
	let largest = 0;
	for (let at = 0; at < seen.length; at++) {
		if (seen[at] === 1) continue;
		seen[at] = 1;
		stack.push(at);
		const area = fill();
		if (area >= least) count += 1;
		if (area > largest) largest = area;
	}
	return { count, largest };
}

/** Area of the convex hull of a shape, in its pixels. */
export function hullArea({ width, height, bits }: Shape): number {
	const corners: [number, number][] = [];
	for (let y = 1; y < height - 1; y++) {
		let first = -1;
		let last = -1;
		for (let x = 1; x < width - 1; x++)
			if (bits[y * width + x] === 1) {
				if (first === -1) first = x;
				last = x;
			}
		if (first !== -1) corners.push([first, y], [first, y + 1], [last + 1, y], [last + 1, y + 1]);
	}
	// Andrew's monotone chain.
	corners.sort((a, b) => a[0] - b[0] || a[1] - b[1]);
	const chain = (points: readonly [number, number][]) => {
		const hull: [number, number][] = [];
		for (const p of points) {
			while (hull.length >= 2) {
				const a = hull[hull.length - 2] as [number, number];
				const b = hull[hull.length - 1] as [number, number];
				if ((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]) > 0) break;
				hull.pop();
			}
			hull.push(p);
		}
		hull.pop();
		return hull;
	};
	const hull = [...chain(corners), ...chain([...corners].reverse())];
	let twice = 0;
	hull.forEach(([x0, y0], i) => {
		const [x1, y1] = hull[(i + 1) % hull.length] as [number, number];
		twice += x0 * y1 - x1 * y0;
	});
	return Math.abs(twice) / 2;
}
