import type { Features } from './features';
import { ramp } from './ramp';
import type { StrokeForm } from './strokeForm';

/** How nearly the mark is one straight line, 0 to 1. */
export function strokeLikeness({ strokes, lengthMm, elongation, holes }: Features): number {
	const main = strokes[0];
	if (!main) return 0;
	const alone = ramp(main.lengthMm / Math.max(0.1, lengthMm), 0.6, 0.85);
	const straight = ramp(main.bend, 0.3, 0.16) * ramp(main.lengthMm / Math.max(0.1, main.chordMm), 1.5, 1.2);
	const calm = ramp(
		strokes.reduce((sum, one) => sum + one.zigzags, 0),
		3,
		1
	);
	return alone * straight * calm * ramp(elongation, 1.7, 2.5) * (holes > 1 ? 0.4 : 1);
}

/** How nearly it is two lines that meet low: the first short and falling, the second long and rising. */
export function checkLikeness({ strokes, lengthMm, penMm }: Features): number {
	const main = strokes[0];
	if (!main || main.closed) return 0;
	const alone = ramp(main.lengthMm / Math.max(0.1, lengthMm), 0.7, 0.9);
	const corner = cornerOf(main);
	if (!corner) return 0;
	const { shortLength, longLength, angle, low } = corner;
	const sharp = ramp(angle, 2.5, 2.1) * ramp(angle, 0.25, 0.45);
	const uneven = ramp(shortLength / longLength, 1.02, 0.85) * ramp(shortLength / longLength, 0.1, 0.2);
	return alone * sharp * (0.55 + 0.45 * uneven) * low * ramp(main.lengthMm / Math.max(0.1, penMm), 3, 5);
}

interface Corner {
	readonly shortLength: number;
	readonly longLength: number;
	/** Between the two arms, in radians. */
	readonly angle: number;
	/** 1 where the corner lies below both ends. */
	readonly low: number;
}

/** The one corner of a line: the point farthest from its chord. */
function cornerOf({ corners }: StrokeForm): Corner | undefined {
	const count = corners.length / 2;
	if (count < 3) return undefined;
	const at = (i: number) => [corners[2 * i] as number, corners[2 * i + 1] as number] as const;
	const [x0, y0] = at(0);
	const [x1, y1] = at(count - 1);
	let best = 1;
	let far = -1;
	for (let i = 1; i < count - 1; i++) {
		const [x, y] = at(i);
		const off = Math.abs((x1 - x0) * (y - y0) - (y1 - y0) * (x - x0));
		if (off > far) [far, best] = [off, i];
	}
	const [cx, cy] = at(best);
	const [a, b] = [Math.hypot(x0 - cx, y0 - cy), Math.hypot(x1 - cx, y1 - cy)];
	if (a === 0 || b === 0) return undefined;
	const angle = Math.acos(Math.max(-1, Math.min(1, ((x0 - cx) * (x1 - cx) + (y0 - cy) * (y1 - cy)) / (a * b))));
	const arms = a + b;
	let way = 0;
	for (let i = 1; i < count; i++) way += Math.hypot(at(i)[0] - at(i - 1)[0], at(i)[1] - at(i - 1)[1]);
	return {
		shortLength: Math.min(a, b),
		longLength: Math.max(a, b),
		angle,
		low: ramp(way / arms, 1.35, 1.1) * (cy > y0 && cy > y1 ? 1 : 0.2)
	};
}

/** How nearly it is two lines that cross. */
export function crossLikeness({ strokes, lengthMm }: Features): number {
	let best = 0;
	for (let i = 0; i < Math.min(4, strokes.length); i++)
		for (let j = i + 1; j < Math.min(5, strokes.length); j++) {
			const [a, b] = [strokes[i] as StrokeForm, strokes[j] as StrokeForm];
			const share = ramp((a.lengthMm + b.lengthMm) / lengthMm, 0.6, 0.85);
			const even = ramp(b.lengthMm / a.lengthMm, 0.2, 0.4);
			const straight = ramp(a.bend, 0.45, 0.2) * ramp(b.bend, 0.45, 0.2);
			best = Math.max(best, share * even * straight * crossing(a, b));
		}
	return best;
}

/** 1 where the chords of two lines cross well inside both and at a good angle. */
function crossing(a: StrokeForm, b: StrokeForm): number {
	const [ax, ay, bx, by] = [a.corners[0] ?? 0, a.corners[1] ?? 0, a.corners.at(-2) ?? 0, a.corners.at(-1) ?? 0];
	const [cx, cy, dx, dy] = [b.corners[0] ?? 0, b.corners[1] ?? 0, b.corners.at(-2) ?? 0, b.corners.at(-1) ?? 0];
	const [ux, uy, vx, vy] = [bx - ax, by - ay, dx - cx, dy - cy];
	const det = ux * vy - uy * vx;
	const sizes = Math.hypot(ux, uy) * Math.hypot(vx, vy);
	if (sizes === 0 || det === 0) return 0;
	const t = ((cx - ax) * vy - (cy - ay) * vx) / det;
	const s = ((cx - ax) * uy - (cy - ay) * ux) / det;
	const inside = (value: number) => ramp(Math.min(value, 1 - value), 0, 0.1);
	return inside(t) * inside(s) * ramp(Math.abs(det) / sizes, 0.2, 0.4);
}

/** How nearly it is one loop around an empty middle, once or more often around; a tail may lead inwards. */
export function ringLikeness({
	holes,
	holeShare,
	roundShare,
	innerShare,
	widthMm,
	heightMm,
	penMm,
	lengthMm,
	solidity,
	pieces
}: Features): number {
	const around = ramp(roundShare, 0.7, 0.88);
	const empty = ramp(innerShare, 0.22, 0.12);
	const roomy = ramp(Math.min(widthMm, heightMm) / penMm, 2.2, 3.2);
	const turns = ramp(lengthMm / (widthMm + heightMm), 11, 7);
	const whole = pieces > 2 ? 0.3 : pieces === 2 ? 0.7 : 1;
	// Going around more than once leaves one large hole; a squiggle leaves several small ones.
	const one = holes === 0 ? 1 : ramp(holeShare, 0.08, 0.22);
	return around * empty * roomy * Math.max(turns, ramp(holeShare, 0.2, 0.3)) * whole * one * ramp(solidity, 0.9, 0.8);
}

/** How nearly it is a line that goes to and fro. */
export function scribbleLikeness({ strokes, lengthMm, widthMm, heightMm, holes, thickestMm }: Features): number {
	const dense = lengthMm / (widthMm + heightMm);
	const turns = strokes.reduce((sum, { reversals }) => sum + reversals, 0);
	const turning = strokes.reduce((sum, one) => sum + one.turning, 0);
	const zigzags = strokes.reduce((sum, one) => sum + one.zigzags, 0);
	const zigzag = ramp(zigzags, 0.5, 2) * (0.75 + 0.25 * ramp(zigzags, 1, 3));
	const busy = Math.max(zigzag, ramp(turns, 1, 3), ramp(holes, 1, 4), ramp(strokes.length, 4, 8), ramp(turning, 4, 9));
	const long = ramp(dense, 0.85, 1.35);
	const solid = ramp(thickestMm, 1.6, 2.4);
	return Math.max(long * (0.3 + 0.7 * busy), 0.8 * solid, 0.9 * busy * ramp(dense, 0.7, 1), zigzag);
}

/** How nearly it is letters in a row, wherever it stands. */
export function writingLikeness({ strokes, widthMm, heightMm, pieces, areaMm2, lengthMm }: Features): number {
	const size = ramp(heightMm, 0.9, 1.5) * ramp(heightMm, 13, 9);
	const turning = strokes.reduce((sum, one) => sum + one.turning, 0);
	const row = ramp(widthMm / heightMm, 0.7, 1.3);
	const busy = Math.max(ramp(pieces, 1, 3), ramp(strokes.length, 2, 5), ramp(turning, 3, 8));
	const open = ramp(areaMm2 / (widthMm * heightMm), 0.6, 0.42);
	return size * row * busy * open * ramp(lengthMm / (widthMm + heightMm), 0.6, 0.9);
}
