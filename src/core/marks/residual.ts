import type { GreyImage, PixelBox } from '../image';
import { paperWhite, type PaperWhite } from './paperWhite';

/** Side of the cells in which stains are told from ink, in pixels: three of them are wider than any target. */
export const CELL_PX = 24;

/** Print darker than this is "cannot see": whether there is ink on it is not asked. */
const UNSEEN_BELOW = 140;

/** Light taken, of 255, below which a pixel is plain paper. */
export const LEAST_DARK = 12;

/** Share of the lightest pixels around a cell that must be clean for it to have no stain. */
const CLEAN_SHARE = 0.25;

/** A broad area darker than this, of 255, is ink, not a stain. */
const DARKEST_STAIN = 110;

/**
 * What lies on a part of a page besides its print: for each pixel how much of the paper's light is taken,
 * 0 to 255, with broad stains taken off. Lives until the next call of `findResidual`.
 */
export interface Residual {
	readonly left: number;
	readonly top: number;
	readonly width: number;
	readonly height: number;
	readonly dark: Uint8Array;
	/** The printed page; see `isUnseen`. */
	readonly print: GreyImage;
	/** Indices into `dark` of all pixels that are not plain paper, row by row. */
	readonly pixels: Int32Array;
	readonly count: number;
	/** Cells of the part, and how dark the stain in each is, 0 to 255. */
	readonly cellColumns: number;
	readonly cellRows: number;
	readonly stains: Uint8Array;
	readonly stained: boolean;
}

/** Steps of darkness in which a cell's pixels are counted: 32 of 8. */
const BIN_SHIFT = 3;
const BIN_COUNT = 32;

let dark = new Uint8Array(0);
let pixels = new Int32Array(1 << 16);

/**
 * Subtracts the print from a page inside `part`, whose edges are multiples of CELL_PX or the page's own.
 * Both images have the page's size.
 */
export function findResidual(page: GreyImage, print: GreyImage, part: PixelBox): Residual {
	const { xPx: left, yPx: top, widthPx: width, heightPx: height } = part;
	const size = width * height;
	if (dark.length < size) dark = new Uint8Array(size);
	else dark.fill(0, 0, size);
	const printWhite = whiteOf(print);
	const white = paperWhite(page, print, printWhite, part);
	const columns = Math.ceil(width / CELL_PX);
	const rows = Math.ceil(height / CELL_PX);
	const bins = new Uint16Array(columns * rows * BIN_COUNT);
	const touched = new Uint8Array(columns * rows);
	const lights = lightsOf(white, printWhite, part, columns, rows);
	const pageWords = wordsOf(page, left);
	const printWords = pageWords && wordsOf(print, left);
	let count = 0;
	const pageData = page.data;
	const printData = print.data;
	for (let y = 0; y < height; y++) {
		const cellRow = Math.floor(y / CELL_PX) * columns;
		const base = (y + top) * page.width + left;
		for (let cell = 0; cell < columns; cell++) {
			const first = cell * CELL_PX;
			const end = Math.min(width, first + CELL_PX);
			const light = lights[cellRow + cell] as number;
			// Where the paper is as white as in the print, four equal pixels at once are nothing.
			if (light === 1 && pageWords && printWords && sameWords(pageWords, printWords, base + first, base + end))
				continue;
			const limit = (light * (255 - LEAST_DARK)) / 255;
			for (let x = first; x < end; x++) {
				const was = printData[base + x] as number;
				const is = pageData[base + x] as number;
				if (is >= was * limit || was < UNSEEN_BELOW) continue;
				const value = (255 * (1 - is / (was * light)) + 0.5) | 0;
				const at = y * width + x;
				dark[at] = value;
				if (count === pixels.length) pixels = grown(pixels);
				pixels[count++] = at;
				const bin = (cellRow + cell) * BIN_COUNT + (value >> BIN_SHIFT);
				bins[bin] = (bins[bin] as number) + 1;
				touched[cellRow + cell] = 1;
			}
		}
	}
	const stains = new Uint8Array(columns * rows);
	const seen = seenOf(print, part, columns, rows, touched);
	let stained = false;
	for (let row = 0; row < rows; row++)
		for (let column = 0; column < columns; column++) {
			if (touched[row * columns + column] === 0) continue;
			const level = stainLevel(bins, seen, columns, rows, column, row);
			if (level === 0) continue;
			stained = true;
			stains[row * columns + column] = level;
		}
	if (stained) count = takeOffStains(width, columns, stains, count);
	return {
		left,
		top,
		width,
		height,
		dark,
		print,
		pixels,
		count,
		cellColumns: columns,
		cellRows: rows,
		stains,
		stained
	};
}

/** Darkness of a pixel of the page, 0 to 1; -1 where print hides it. Pixels outside the part read 0. */
export function darknessAt({ left, top, width, height, dark: values, print }: Residual, x: number, y: number): number {
	if (x < left || y < top || x >= left + width || y >= top + height) return 0;
	if ((print.data[y * print.width + x] as number) < UNSEEN_BELOW) return -1;
	return (values[(y - top) * width + x - left] as number) / 255;
}

/** Whether print hides what is at a pixel of the page. */
export function isUnseen(print: GreyImage, x: number, y: number): boolean {
	return (
		x >= 0 &&
		y >= 0 &&
		x < print.width &&
		y < print.height &&
		(print.data[y * print.width + x] as number) < UNSEEN_BELOW
	);
}

/** Light of the paper in each cell, as a share of the print's white. */
function lightsOf(white: PaperWhite, printWhite: number, part: PixelBox, columns: number, rows: number): Float64Array {
	const lights = new Float64Array(columns * rows);
	for (let row = 0; row < rows; row++)
		for (let column = 0; column < columns; column++)
			lights[row * columns + column] = white.at(part.xPx + column * CELL_PX, part.yPx + row * CELL_PX) / printWhite;
	return lights;
}

/** The image's pixels four at a time; undefined where rows or the part do not begin at a multiple of four. */
function wordsOf({ data, width }: GreyImage, left: number): Uint32Array | undefined {
	if (data.byteOffset % 4 !== 0 || data.length % 4 !== 0 || width % 4 !== 0 || left % 4 !== 0) return undefined;
	return new Uint32Array(data.buffer, data.byteOffset, data.length / 4);
}

function sameWords(a: Uint32Array, b: Uint32Array, from: number, to: number): boolean {
	for (let word = from >> 2; word < to >> 2; word++) if (a[word] !== b[word]) return false;
	return true;
}

const whites = new WeakMap<GreyImage, number>();

/** Grey of blank paper in a printed page: its lightest grey. Kept for each page, which never changes. */
function whiteOf(print: GreyImage): number {
	const known = whites.get(print);
	if (known !== undefined) return known;
	let white = 1;
	for (const grey of print.data) if (grey > white) white = grey;
	whites.set(print, white);
	return white;
}

function grown(list: Int32Array<ArrayBuffer>): Int32Array<ArrayBuffer> {
	const larger = new Int32Array(list.length * 2);
	larger.set(list);
	return larger;
}

/** How many pixels of each touched cell and its neighbours print does not hide. */
function seenOf(print: GreyImage, part: PixelBox, columns: number, rows: number, touched: Uint8Array): Uint16Array {
	const seen = new Uint16Array(columns * rows);
	for (let row = 0; row < rows; row++)
		for (let column = 0; column < columns; column++) {
			if (!isNear(touched, columns, rows, column, row)) continue;
			const right = Math.min(part.widthPx, (column + 1) * CELL_PX);
			const bottom = Math.min(part.heightPx, (row + 1) * CELL_PX);
			let count = 0;
			for (let y = row * CELL_PX; y < bottom; y++) {
				const base = (y + part.yPx) * print.width + part.xPx;
				for (let x = column * CELL_PX; x < right; x++) if ((print.data[base + x] as number) >= UNSEEN_BELOW) count += 1;
			}
			seen[row * columns + column] = count;
		}
	return seen;
}

function isNear(touched: Uint8Array, columns: number, rows: number, column: number, row: number): boolean {
	for (let y = Math.max(0, row - 1); y <= Math.min(rows - 1, row + 1); y++)
		for (let x = Math.max(0, column - 1); x <= Math.min(columns - 1, column + 1); x++)
			if (touched[y * columns + x] === 1) return true;
	return false;
}

/** Darkness that nearly everything in a cell and its neighbours has; 0 where a good part of them is clean. */
function stainLevel(
	bins: Uint16Array,
	seen: Uint16Array,
	columns: number,
	rows: number,
	column: number,
	row: number
): number {
	let all = 0;
	let notClean = 0;
	const [left, right] = [Math.max(0, column - 1), Math.min(columns - 1, column + 1)];
	const [top, bottom] = [Math.max(0, row - 1), Math.min(rows - 1, row + 1)];
	for (let y = top; y <= bottom; y++)
		for (let x = left; x <= right; x++) {
			const cell = y * columns + x;
			all += seen[cell] as number;
			for (let bin = cell * BIN_COUNT; bin < (cell + 1) * BIN_COUNT; bin++) notClean += bins[bin] as number;
		}
	const wanted = CLEAN_SHARE * all;
	let lighter = all - notClean;
	if (lighter >= wanted) return 0;
	for (let bin = 0; bin < BIN_COUNT; bin++) {
		for (let y = top; y <= bottom; y++)
			for (let x = left; x <= right; x++) lighter += bins[(y * columns + x) * BIN_COUNT + bin] as number;
		if (lighter < wanted) continue;
		const level = (bin << BIN_SHIFT) + (1 << BIN_SHIFT) / 2;
		return level > DARKEST_STAIN ? 0 : level;
	}
	return 0;
}

/** Subtracts each cell's stain from its pixels; returns how many are still not plain paper. */
function takeOffStains(width: number, columns: number, stains: Uint8Array, count: number): number {
	let kept = 0;
	for (let i = 0; i < count; i++) {
		const at = pixels[i] as number;
		const y = (at / width) | 0;
		const stain = stains[Math.floor(y / CELL_PX) * columns + Math.floor((at - y * width) / CELL_PX)] as number;
		if (stain > 0) {
			const was = dark[at] as number;
			const left = was <= stain ? 0 : ((was - stain) * 255) / (255 - stain);
			dark[at] = left;
			if (left < LEAST_DARK) {
				dark[at] = 0;
				continue;
			}
		}
		pixels[kept++] = at;
	}
	return kept;
}
