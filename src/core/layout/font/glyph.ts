import type { FontWeight } from '../layout';
import { advanceOf, placeInFont } from './measure';
import { CAP_HEIGHT, UNITS_PER_EM } from './metrics';

/** The drawn shape of one character. */
export interface Glyph {
	readonly advanceEm: number;
	/**
	 * Closed polylines [x0, y0, x1, y1, …] in em, y down, baseline at 0, the last point joined to the
	 * first. Filled by the non-zero winding rule.
	 */
	readonly contours: readonly Float32Array[];
}

/**
 * How far a polyline may stray from its curve, in em: a tenth of a pixel of the page image at 20 pt,
 * the largest text printed.
 */
const TOLERANCE_EM = 0.0018;

/** Outlines of the characters of metrics.ts, per weight, as `tests/support/makeFont.mjs` packs them. */
export type PackedOutlines = Readonly<Record<FontWeight, string>>;

let packed: PackedOutlines | undefined;

/**
 * Gives the core the bundled font's outlines: the text of `outlines.json`. A worker fetches it as data;
 * where code may read the file, importing `bundled.ts` does this.
 */
export function provideOutlines(outlines: PackedOutlines): void {
	packed = outlines;
}

const unpacked: Partial<Record<FontWeight, readonly (readonly Float32Array[])[]>> = {};
const glyphs = { regular: new Map<string, Glyph>(), bold: new Map<string, Glyph>() };

/** The glyph of one character in the bundled font; a hollow box where the font does not have it. */
export function glyphOf(character: string, weight: FontWeight): Glyph {
	const known = glyphs[weight].get(character);
	if (known) return known;
	const place = placeInFont(character);
	const outlines = (unpacked[weight] ??= unpack(packedOf(weight)));
	const advanceEm = advanceOf(character, weight);
	const contours = place === undefined ? hollowBox(advanceEm) : (outlines[place] ?? []);
	const glyph = { advanceEm, contours };
	glyphs[weight].set(character, glyph);
	return glyph;
}

function packedOf(weight: FontWeight): string {
	if (!packed)
		throw new Error(
			'glyphOf: expected the font\'s outlines, got none; import "layout/font/bundled" or call provideOutlines first'
		);
	return packed[weight];
}

/** Contours of every glyph, in the order of CHARACTERS. `tests/support/makeFont.mjs` packs and describes them. */
function unpack(packed: string): readonly (readonly Float32Array[])[] {
	const next = numbersOf(packed);
	const shapes = Array.from({ length: next() }, () => {
		const points: CurvePoint[] = [];
		let x = 0;
		let y = 0;
		for (let left = next(); left > 0; left--) {
			const step = next();
			x += step >> 1;
			y += next();
			points.push({ x, y, on: (step & 1) === 1 });
		}
		return flatten(points);
	});
	const outlines: Float32Array[][] = [];
	while (!next.done()) {
		let shape = 0;
		outlines.push(
			Array.from({ length: next() }, () => {
				shape += next();
				return placed(shapes[shape] ?? [], next(), next());
			})
		);
	}
	return outlines;
}

interface CurvePoint {
	readonly x: number;
	readonly y: number;
	readonly on: boolean;
}

/** Reads zigzag numbers in base64 digits of 5 bits, one a call. */
function numbersOf(packed: string): (() => number) & { done: () => boolean } {
	let at = 0;
	const next = () => {
		let value = 0;
		let digit = 32;
		for (let shift = 0; digit & 32; shift += 5) {
			digit = DIGIT_VALUES[packed.charCodeAt(at++)] ?? 0;
			value |= (digit & 31) << shift;
		}
		return value & 1 ? -((value + 1) >> 1) : value >> 1;
	};
	return Object.assign(next, { done: () => at >= packed.length });
}

const DIGIT_VALUES = digitValues('ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/');

function digitValues(digits: string): Uint8Array {
	const values = new Uint8Array(128);
	for (let value = 0; value < digits.length; value++) values[digits.charCodeAt(value)] = value;
	return values;
}

/** Points along a closed contour in font units, y up. Between two points off the curve lies one on it, half-way. */
function flatten(points: readonly CurvePoint[]): number[] {
	const line: number[] = [];
	const [start] = points;
	if (!start) return line;
	let from = start;
	line.push(start.x, start.y);
	for (let i = 1; i <= points.length; i++) {
		const point = points[i] ?? start;
		if (point.on) {
			if (i < points.length) line.push(point.x, point.y);
			from = point;
			continue;
		}
		const after = points[i + 1] ?? start;
		const to = after.on ? after : { x: (point.x + after.x) / 2, y: (point.y + after.y) / 2, on: true };
		addCurve(line, from, point, to);
		if (!after.on) line.push(to.x, to.y);
		from = to;
	}
	return line;
}

/** Adds the points of a quadratic curve between its ends, both left out. */
function addCurve(line: number[], from: CurvePoint, control: CurvePoint, to: CurvePoint): void {
	const bend = Math.hypot(from.x - 2 * control.x + to.x, from.y - 2 * control.y + to.y) / 4;
	const pieces = Math.max(1, Math.ceil(Math.sqrt(bend / (TOLERANCE_EM * UNITS_PER_EM))));
	for (let piece = 1; piece < pieces; piece++) {
		const t = piece / pieces;
		const a = (1 - t) * (1 - t);
		const b = 2 * t * (1 - t);
		line.push(a * from.x + b * control.x + t * t * to.x, a * from.y + b * control.y + t * t * to.y);
	}
}

function placed(shape: readonly number[], x: number, y: number): Float32Array {
	const contour = new Float32Array(shape.length);
	for (let i = 0; i < shape.length; i += 2) {
		contour[i] = ((shape[i] ?? 0) + x) / UNITS_PER_EM;
		contour[i + 1] = -((shape[i + 1] ?? 0) + y) / UNITS_PER_EM;
	}
	return contour;
}

/** A box as high as a capital, with an opening wound the other way round. */
function hollowBox(advanceEm: number): Float32Array[] {
	const [side, stroke, top] = [0.06, 0.05, CAP_HEIGHT / UNITS_PER_EM];
	const [left, right] = [side, advanceEm - side];
	const outer = [left, 0, left, -top, right, -top, right, 0];
	const inner = [
		left + stroke,
		-stroke,
		right - stroke,
		-stroke,
		right - stroke,
		stroke - top,
		left + stroke,
		stroke - top
	];
	return [Float32Array.from(outer), Float32Array.from(inner)];
}
