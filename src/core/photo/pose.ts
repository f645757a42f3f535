import type { Point } from '../geometry';
import { homographyOf, project, solve, type Homography } from './homography';

/** Rounds of Gauss and Newton, and the least turn or step that is worth another. */
const ROUNDS = 12;
const ENOUGH = 1e-6;

/** Of the equations' own size: keeps a step small where the points say little. */
const DAMPING = 1e-4;

/** Nine numbers of a rotation, row by row, and three of where the page's first corner is, in focal lengths. */
interface Pose {
	readonly turn: readonly number[];
	readonly shift: readonly number[];
}

/**
 * The view of a page by a camera of a known focal length that looks at the middle of the picture: with six unknowns for
 * eight it goes on far beyond the points given, where a homography through them would not. Undefined where the points do
 * not settle it.
 */
export function viewByPose(
	from: readonly Point[],
	to: readonly Point[],
	weights: readonly number[],
	focalPx: number,
	middle: Point
): Homography | undefined {
	const seen = to.map(({ x, y }) => ({ x: (x - middle.x) / focalPx, y: (y - middle.y) / focalPx }));
	const first = homographyOf(from, seen, weights);
	if (!first) return undefined;
	let pose = poseOf(first);
	let error = errorOf(pose, from, seen, weights);
	for (let round = 0; round < ROUNDS; round++) {
		const step = stepFrom(pose, from, seen, weights);
		if (!step) break;
		const next = moved(pose, step);
		const left = errorOf(next, from, seen, weights);
		if (!(left < error)) break;
		[pose, error] = [next, left];
		if (Math.max(...step.map(Math.abs)) < ENOUGH) break;
	}
	const h = viewOf(pose);
	const w = h[8] as number;
	if (Math.abs(w) < 1e-9) return undefined;
	const [x, y] = [middle.x, middle.y];
	return Float64Array.from(
		[0, 1, 2]
			.flatMap((i) => [(h[i] as number) * focalPx + x * (h[6 + i] as number)])
			.concat(
				[3, 4, 5].map((i) => (h[i] as number) * focalPx + y * (h[3 + i] as number)),
				[h[6] as number, h[7] as number]
			),
		(part) => part / w
	);
}

/** The pose that is nearest to a homography: its first columns made as long as each other and square. */
function poseOf(h: Homography): Pose {
	const [a, b, c, d, e, f, g, i] = h as unknown as [number, number, number, number, number, number, number, number];
	const [long, wide] = [Math.hypot(a, d, g), Math.hypot(b, e, i)];
	const [x0, x1, x2] = [a / long, d / long, g / long];
	const along = (x0 * b + x1 * e + x2 * i) / wide;
	const rest = [b / wide - along * x0, e / wide - along * x1, i / wide - along * x2] as const;
	const size = Math.hypot(...rest);
	const [y0, y1, y2] = [rest[0] / size, rest[1] / size, rest[2] / size];
	const far = Math.sqrt(long * wide);
	return {
		turn: [x0, y0, x1 * y2 - x2 * y1, x1, y1, x2 * y0 - x0 * y2, x2, y2, x0 * y1 - x1 * y0],
		shift: [c / far, f / far, 1 / far]
	};
}

/** The homography of a pose, all nine numbers. */
const viewOf = ({ turn, shift }: Pose): readonly number[] =>
	[0, 1, 2].flatMap((row) => [turn[3 * row] as number, turn[3 * row + 1] as number, shift[row] as number]);

function placeIn(pose: Pose, { x, y }: Point): Point {
	const h = viewOf(pose);
	const w = h[8] as number;
	return project(
		Float64Array.from(h.slice(0, 8), (part) => part / w),
		x,
		y
	);
}

function errorOf(pose: Pose, from: readonly Point[], to: readonly Point[], weights: readonly number[]): number {
	return from.reduce((sum, point, i) => {
		const at = placeIn(pose, point);
		const seen = to[i] as Point;
		return sum + (weights[i] ?? 1) * ((at.x - seen.x) ** 2 + (at.y - seen.y) ** 2);
	}, 0);
}

/** Three small turns and three shares of the distance, as least squares ask for them. */
function stepFrom(
	pose: Pose,
	from: readonly Point[],
	to: readonly Point[],
	weights: readonly number[]
): readonly number[] | undefined {
	const small = 1e-6;
	const tried = Array.from({ length: 6 }, (_, i) =>
		moved(
			pose,
			Array.from({ length: 6 }, (__, j) => (i === j ? small : 0))
		)
	);
	const rows = new Float64Array(6 * 7);
	from.forEach((point, k) => {
		const at = placeIn(pose, point);
		const seen = to[k] as Point;
		const slopes = tried.map((one) => {
			const there = placeIn(one, point);
			return { x: (there.x - at.x) / small, y: (there.y - at.y) / small };
		});
		const weight = weights[k] ?? 1;
		slopes.forEach((own, i) => {
			slopes.forEach((other, j) => {
				rows[7 * i + j] = (rows[7 * i + j] as number) + weight * (own.x * other.x + own.y * other.y);
			});
			rows[7 * i + 6] = (rows[7 * i + 6] as number) + weight * (own.x * (seen.x - at.x) + own.y * (seen.y - at.y));
		});
	});
	for (let i = 0; i < 6; i++) rows[8 * i] = (rows[8 * i] as number) * (1 + DAMPING);
	const step = solve(rows, 6);
	return step && [...step];
}

/** A pose turned by three small angles and shifted by three shares of its distance. */
function moved({ turn, shift }: Pose, step: readonly number[]): Pose {
	const [a, b, c] = step as readonly [number, number, number];
	const angle = Math.hypot(a, b, c);
	const [s, q] = angle < 1e-12 ? [1, 0.5] : [Math.sin(angle) / angle, (1 - Math.cos(angle)) / (angle * angle)];
	// O. Rodrigues's formula, 1840: a turn by an angle about an axis.
	const by = [
		1 - q * (b * b + c * c),
		q * a * b - s * c,
		q * a * c + s * b,
		q * a * b + s * c,
		1 - q * (a * a + c * c),
		q * b * c - s * a,
		q * a * c - s * b,
		q * b * c + s * a,
		1 - q * (a * a + b * b)
	];
	const far = Math.abs(shift[2] as number);
	return {
		turn: Array.from({ length: 9 }, (_, i) => {
			const [row, column] = [3 * Math.floor(i / 3), i % 3];
			return [0, 1, 2].reduce((sum, k) => sum + (by[row + k] as number) * (turn[3 * k + column] as number), 0);
		}),
		shift: shift.map((part, i) => part + far * (step[3 + i] as number))
	};
}
