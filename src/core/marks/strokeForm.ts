import type { PenStroke } from './penStrokes';

/** The form of one line. Lengths in millimetres; angles in radians, 0 to the right, positive downwards. */
export interface StrokeForm {
	readonly lengthMm: number;
	/** Between its ends. */
	readonly chordMm: number;
	/** Farthest from the chord, over the chord. */
	readonly bend: number;
	/** Sum of all its turning. */
	readonly turning: number;
	/** How often it turns back, by more than 110 degrees within a short way. */
	readonly reversals: number;
	/** How many of its sharp turns follow each other to opposite sides: 1 in a Z, more in a zigzag or a wave. */
	readonly zigzags: number;
	readonly closed: boolean;
	/** Its corners with both ends, x0, y0, x1, y1, …, in pixels of the shape. */
	readonly corners: readonly number[];
	/** Direction of the chord, -pi/2 to pi/2. */
	readonly slope: number;
}

/** A corner stands out by this share of the line's extent, or by so many of its widths. */
const CORNER_SHARE = 0.09;
const CORNER_WIDTHS = 0.8;

/** A zigzag is at least this share of the narrower side of the line's box wide, and turns by this much, in radians. */
const ZIGZAG_SHARE = 0.25;
const ZIGZAG_TURN = 0.7;

const REVERSAL = (110 / 180) * Math.PI;

/** Measures one line. `widthPx`: its width; `mmPerPx`: millimetres of a pixel of the shape. */
export function strokeForm({ points, length, closed }: PenStroke, widthPx: number, mmPerPx: number): StrokeForm {
	const count = points.length / 2;
	const [x0, y0] = [points[0] as number, points[1] as number];
	const [x1, y1] = [points[2 * count - 2] as number, points[2 * count - 1] as number];
	const chord = Math.hypot(x1 - x0, y1 - y0);
	let far = 0;
	let [minX, maxX, minY, maxY] = [x0, x0, y0, y0];
	for (let i = 0; i < count; i++) {
		const [x, y] = [points[2 * i] as number, points[2 * i + 1] as number];
		minX = Math.min(minX, x);
		maxX = Math.max(maxX, x);
		minY = Math.min(minY, y);
		maxY = Math.max(maxY, y);
		far = Math.max(far, fromLine(x, y, x0, y0, x1, y1));
	}
	const extent = Math.hypot(maxX - minX, maxY - minY);
	const corners = simplify(points, Math.max(CORNER_SHARE * extent, CORNER_WIDTHS * widthPx, 1.5));
	const { turning, reversals } = turnsOf(simplify(points, Math.max(0.7 * widthPx, 1.2)));
	const narrow = Math.min(maxX - minX, maxY - minY);
	const zigzags = zigzagsOf(simplify(points, Math.max(ZIGZAG_SHARE * narrow, 1.2 * widthPx, 1.5)));
	const angle = Math.atan2(y1 - y0, x1 - x0);
	return {
		lengthMm: length * mmPerPx,
		chordMm: chord * mmPerPx,
		bend: far / Math.max(1, chord),
		turning,
		reversals,
		zigzags,
		closed,
		corners,
		slope: angle > Math.PI / 2 ? angle - Math.PI : angle < -Math.PI / 2 ? angle + Math.PI : angle
	};
}

function fromLine(x: number, y: number, x0: number, y0: number, x1: number, y1: number): number {
	const [dx, dy] = [x1 - x0, y1 - y0];
	const squared = dx * dx + dy * dy;
	const t = squared === 0 ? 0 : Math.max(0, Math.min(1, ((x - x0) * dx + (y - y0) * dy) / squared));
	return Math.hypot(x - x0 - t * dx, y - y0 - t * dy);
}

/** Corners of the line by Douglas and Peucker, "Algorithms for the reduction of the number of points" (1973). */
function simplify(points: readonly number[], tolerance: number): number[] {
	const count = points.length / 2;
	const keep = new Uint8Array(count);
	keep[0] = 1;
	keep[count - 1] = 1;
	const spans: [number, number][] = [[0, count - 1]];
	for (let span = spans.pop(); span; span = spans.pop()) {
		const [from, to] = span;
		let [farthest, at] = [tolerance, -1];
		for (let i = from + 1; i < to; i++) {
			const off = fromLine(
				points[2 * i] as number,
				points[2 * i + 1] as number,
				points[2 * from] as number,
				points[2 * from + 1] as number,
				points[2 * to] as number,
				points[2 * to + 1] as number
			);
			if (off > farthest) [farthest, at] = [off, i];
		}
		if (at === -1) continue;
		keep[at] = 1;
		spans.push([from, at], [at, to]);
	}
	const corners: number[] = [];
	for (let i = 0; i < count; i++) if (keep[i] === 1) corners.push(points[2 * i] as number, points[2 * i + 1] as number);
	return corners;
}

function turnsOf(corners: readonly number[]): { turning: number; reversals: number } {
	let turning = 0;
	let reversals = 0;
	let before: number | undefined;
	for (let i = 2; i < corners.length; i += 2) {
		const dx = (corners[i] as number) - (corners[i - 2] as number);
		const dy = (corners[i + 1] as number) - (corners[i - 1] as number);
		if (dx === 0 && dy === 0) continue;
		const angle = Math.atan2(dy, dx);
		if (before !== undefined) {
			const apart = Math.abs(angle - before);
			const turn = apart > Math.PI ? 2 * Math.PI - apart : apart;
			turning += turn;
			if (turn > REVERSAL) reversals += 1;
		}
		before = angle;
	}
	return { turning, reversals };
}

function zigzagsOf(corners: readonly number[]): number {
	let zigzags = 0;
	let last = 0;
	for (let i = 2; i + 3 < corners.length; i += 2) {
		const [ax, ay] = [
			(corners[i] as number) - (corners[i - 2] as number),
			(corners[i + 1] as number) - (corners[i - 1] as number)
		];
		const [bx, by] = [
			(corners[i + 2] as number) - (corners[i] as number),
			(corners[i + 3] as number) - (corners[i + 1] as number)
		];
		const turn = Math.atan2(ax * by - ay * bx, ax * bx + ay * by);
		if (Math.abs(turn) < ZIGZAG_TURN) continue;
		const sign = Math.sign(turn);
		if (last !== 0 && sign !== last) zigzags += 1;
		last = sign;
	}
	return zigzags;
}
