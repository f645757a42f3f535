import type { Stroke, StrokePoint, Tool } from './stroke';

export interface Hand {
	readonly tool: Tool;
	/** Numbers in [0, 1): how this hand shakes. */
	readonly random: () => number;
	/** How far the hand strays from where it was going, in points. */
	readonly wobblePt: number;
	/** Writing runs at about 0.1 to 0.2 points a millisecond (35 to 70 mm/s). Found by trial. */
	readonly speedPtPerMs: number;
}

/** Distance between two samples of the pen, in points. */
const SAMPLE_PT = 0.9;

/** A hand strays anew about once in this length, in points. */
const STRAY_PT = 9;

/**
 * One stroke drawn as by a hand through `corners` [x, y] in points: it strays a little, rounds its
 * corners, and slows down in them. Times are milliseconds since the stroke began. Two corners or more.
 */
export function handStroke(hand: Hand, corners: readonly (readonly [x: number, y: number])[]): Stroke {
	const { tool, random, wobblePt, speedPtPerMs } = hand;
	const way: [number, number][] = [];
	const stray = () => (random() + random() - 1) * wobblePt;
	for (const [index, [x, y]] of corners.entries()) {
		const before = corners[index - 1];
		if (before) {
			const pieces = Math.max(1, Math.round(Math.hypot(x - before[0], y - before[1]) / STRAY_PT));
			for (let piece = 1; piece < pieces; piece++) {
				const t = piece / pieces;
				way.push([before[0] + (x - before[0]) * t + stray(), before[1] + (y - before[1]) * t + stray()]);
			}
		}
		way.push([x + stray(), y + stray()]);
	}
	return { tool, points: timed(smooth(way), speedPtPerMs) };
}

/** Samples of a Catmull-Rom curve through the points. */
function smooth(way: readonly (readonly [number, number])[]): [number, number][] {
	const samples: [number, number][] = [];
	for (let i = 0; i + 1 < way.length; i++) {
		const b = way[i] ?? [0, 0];
		const c = way[i + 1] ?? b;
		const a = way[i - 1] ?? b;
		const d = way[i + 2] ?? c;
		const steps = Math.max(1, Math.ceil(Math.hypot(c[0] - b[0], c[1] - b[1]) / SAMPLE_PT));
		for (let step = i === 0 ? 0 : 1; step <= steps; step++) {
			const t = step / steps;
			samples.push([curveAt(a[0], b[0], c[0], d[0], t), curveAt(a[1], b[1], c[1], d[1], t)]);
		}
	}
	return samples;
}

/** Tangents at a quarter of the chord (half of the usual) keep corners from swinging out. */
function curveAt(a: number, b: number, c: number, d: number, t: number): number {
	const out = (c - a) / 4;
	const into = (d - b) / 4;
	const squared = t * t;
	const cubed = squared * t;
	return (
		(2 * cubed - 3 * squared + 1) * b +
		(cubed - 2 * squared + t) * out +
		(3 * squared - 2 * cubed) * c +
		(cubed - squared) * into
	);
}

/** A pen is this much slower where it turns back on itself. */
const TURN_SLOWNESS = 2.5;

function timed(samples: readonly (readonly [number, number])[], speedPtPerMs: number): StrokePoint[] {
	const points: StrokePoint[] = [];
	let ms = 0;
	for (const [i, [x, y]] of samples.entries()) {
		const before = samples[i - 1];
		if (before) {
			const [dx, dy] = [x - before[0], y - before[1]];
			const after = samples[i + 1] ?? [x, y];
			const [nextX, nextY] = [after[0] - x, after[1] - y];
			const product = Math.hypot(dx, dy) * Math.hypot(nextX, nextY);
			const turn = product > 0 ? (1 - (dx * nextX + dy * nextY) / product) / 2 : 0;
			ms += (Math.hypot(dx, dy) / speedPtPerMs) * (1 + TURN_SLOWNESS * turn);
		}
		points.push([round(x), round(y), Math.round(ms)]);
	}
	return points;
}

/** Hundredths of a point: finer than any pen, and short in a file. */
const round = (pt: number): number => Math.round(pt * 100) / 100;
