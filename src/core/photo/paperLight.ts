import type { GreyImage } from '../image';

/** Side of the squares in which the light is taken, in pixels, and every which pixel of them is looked at. */
export const SQUARE_PX = 8;
const STEP_PX = 2;
const LEAST_SAMPLES = 4;

/**
 * Squares to each side over which the light is closed: what is darker than its surroundings on both sides within this
 * reach is ink, a filled target for one; what stays dark beyond is shadow. Found by trial: 3 squares are 56 px across.
 */
const REACH = 3;

/**
 * What is darker than DEEP of the paper around it is ink even where it is wider, within this many squares to each side: a
 * filled target with a ring around it, a name that was blacked out. That no shadow is so deep and so narrow is taken for
 * granted, no source. 10 squares are 168 px across, 21 mm; `tests/bench/photos.ts` was run with it.
 */
const WIDE_REACH = 10;
const DEEP = 0.6;

/** Grey of bare paper, at the middle of each square. */
export interface PaperLight {
	readonly columns: number;
	readonly rows: number;
	readonly greys: Float32Array;
}

/**
 * How bright bare paper is over the page. `print`: the printed page as blurred as the picture; only where it is all but
 * white is the paper bare.
 */
export function paperLight(picture: GreyImage, print: GreyImage, printWhite: number): PaperLight {
	const columns = Math.ceil(picture.width / SQUARE_PX);
	const rows = Math.ceil(picture.height / SQUARE_PX);
	const greys = new Float32Array(columns * rows);
	for (let row = 0; row < rows; row++)
		for (let column = 0; column < columns; column++)
			greys[row * columns + column] = greyOf(picture, print, printWhite, column * SQUARE_PX, row * SQUARE_PX);
	// Closed: the lightest around, and of that the darkest around. A slope of light comes out as it went in.
	// Not smoothed further: at the foot of a shadow's edge that would pass for light that is missing.
	const light = lightestAround(greys, columns, rows, REACH);
	const closed = darkestAround(light, columns, rows, REACH);
	let [deepest, lightest] = [Infinity, 0];
	for (let i = 0; i < closed.length; i++) {
		if ((closed[i] as number) > 0) deepest = Math.min(deepest, closed[i] as number);
		lightest = Math.max(lightest, light[i] as number);
	}
	if (deepest < DEEP * lightest) {
		const wider = lightestAround(light, columns, rows, WIDE_REACH - REACH);
		const wide = darkestAround(wider, columns, rows, WIDE_REACH);
		for (let i = 0; i < closed.length; i++)
			if ((closed[i] as number) < DEEP * (wide[i] as number)) closed[i] = wide[i] as number;
	}
	return { columns, rows, greys: closed };
}

/**
 * The light along row `y` between the squares' middles in proportion: `knots` is filled with the grey at the middle of each
 * square, with one knot before the first square and one after the last.
 */
export function lightsAlong({ columns, rows, greys }: PaperLight, y: number, knots: Float32Array): void {
	const fy = Math.max(0, Math.min(rows - 1.001, (y + 0.5) / SQUARE_PX - 0.5));
	const y0 = Math.floor(fy);
	const wy = fy - y0;
	const upper = y0 * columns;
	for (let column = 0; column < columns; column++) {
		const i = upper + column;
		knots[column + 1] = (greys[i] as number) * (1 - wy) + (greys[i + columns] as number) * wy;
	}
	knots[0] = knots[1] as number;
	knots[columns + 1] = knots[columns] as number;
}

const samples = new Uint8Array((SQUARE_PX / STEP_PX) ** 2);

/** The middle grey of the bare paper in one square; 0 where too little of it is bare. */
function greyOf(picture: GreyImage, print: GreyImage, printWhite: number, left: number, top: number): number {
	const right = Math.min(picture.width, left + SQUARE_PX);
	const bottom = Math.min(picture.height, top + SQUARE_PX);
	let count = 0;
	for (let y = top; y < bottom; y += STEP_PX)
		for (let x = left, at = y * picture.width + left; x < right; x += STEP_PX, at += STEP_PX) {
			if ((print.data[at] as number) < printWhite - 1) continue;
			const grey = picture.data[at] as number;
			let place = count++;
			for (; place > 0 && (samples[place - 1] as number) > grey; place--) samples[place] = samples[place - 1] as number;
			samples[place] = grey;
		}
	if (count < LEAST_SAMPLES) return 0;
	return ((samples[(count - 1) >> 1] as number) + (samples[count >> 1] as number)) / 2;
}

/** Lighter than anything, to turn darkest into lightest; in halves of a grey it is told exactly. */
const BEYOND = 1024;

/** The darkest of the squares within reach of each that say anything. */
function darkestAround(values: Float32Array, columns: number, rows: number, reach: number): Float32Array {
	const turned = (grey: number): number => (grey === 0 ? 0 : BEYOND - grey);
	return lightestAround(values.map(turned), columns, rows, reach).map(turned);
}

/** The lightest of the squares within reach of each, rows and then columns. A square of 0 and what is beyond the page say nothing. */
function lightestAround(values: Float32Array, columns: number, rows: number, reach: number): Float32Array {
	const result = values.slice();
	const line = new Float32Array(Math.max(columns, rows) + 2 * reach);
	for (let row = 0; row < rows; row++) lightestAlong(result, row * columns, 1, columns, reach, line);
	for (let column = 0; column < columns; column++) lightestAlong(result, column, columns, rows, reach, line);
	return result;
}

/** The same along one line of `values` that begins at `start`; by spans twice as long each time, `line` to work in. */
function lightestAlong(
	values: Float32Array,
	start: number,
	step: number,
	length: number,
	reach: number,
	line: Float32Array
): void {
	line.fill(0);
	for (let i = 0; i < length; i++) line[reach + i] = values[start + i * step] as number;
	const wide = 2 * reach + 1;
	let span = 1;
	for (let left = length + 2 * reach; 2 * span <= wide; span *= 2) {
		left -= span;
		for (let i = 0; i < left; i++) {
			const other = line[i + span] as number;
			if (other > (line[i] as number)) line[i] = other;
		}
	}
	for (let i = 0; i < length; i++)
		values[start + i * step] = Math.max(line[i] as number, line[i + wide - span] as number);
}
