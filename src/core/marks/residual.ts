import type { GreyImage, PixelBox } from '../image';
import { paperWhite, SQUARE_PX, type PaperWhite } from './paperWhite';

/** Side of the blocks in which a page is compared with its print, in pixels. */
export const BLOCK_PX = 16;

/** Print darker than this is "cannot see": whether there is ink on it is not asked. */
export const UNSEEN_BELOW = 140;

/** Light taken, of 255, below which a pixel is plain paper. Found by trial: an erased pencil line leaves 16 to 25. */
export const LEAST_DARK = 14;

/**
 * What lies on a part of a page besides its print: for each pixel how much of the paper's light is taken,
 * 0 to 255. Lives until the next call of `findResidual`.
 */
export interface Residual {
	readonly left: number;
	readonly top: number;
	readonly width: number;
	readonly height: number;
	readonly dark: Uint8Array;
	/** The printed page, of the whole page's size; see UNSEEN_BELOW. */
	readonly print: GreyImage;
	/** Indices into `dark` of all pixels that are not plain paper; the first `count` are filled. */
	readonly pixels: Int32Array;
	readonly count: number;
}

let dark = new Uint8Array(0);
let pixels = new Int32Array(1 << 16);
let lastCount = 0;

/**
 * Subtracts the print from a page inside `part`, whose edges are multiples of BLOCK_PX or the page's own.
 * Both images have the page's size.
 */
export function findResidual(page: GreyImage, print: GreyImage, part: PixelBox): Residual {
	const { xPx: left, yPx: top, widthPx: width, heightPx: height } = part;
	if (dark.length < width * height) dark = new Uint8Array(width * height);
	// Only what the last call set has to be cleared.
	else for (let i = 0; i < lastCount; i++) dark[pixels[i] as number] = 0;
	const printWhite = whiteOf(print);
	const white = paperWhite(page, print, printWhite, part);
	const pageData = page.data;
	const printData = print.data;
	const pageWords = wordsOf(page);
	const printWords = wordsOf(print);
	const wholeWords = pageWords !== undefined && printWords !== undefined && left % 4 === 0;
	let count = 0;
	for (let row = 0; row < height; row += BLOCK_PX) {
		const bottom = Math.min(height, row + BLOCK_PX);
		const lights = lightsAt(white, printWhite, part, row);
		for (let y = row; y < bottom; y++) {
			const base = (y + top) * page.width + left;
			for (let block = 0; block < width; block += BLOCK_PX) {
				const end = Math.min(width, block + BLOCK_PX);
				const light = lights[block / BLOCK_PX] as number;
				if (wholeWords && light === 1) {
					// Where the paper is as white as in the print, equal pixels, four at once, are nothing.
					let word = (base + block) >> 2;
					const last = (base + end) >> 2;
					while (word < last && pageWords[word] === printWords[word]) word += 1;
					if (word === last) continue;
				}
				const limit = (light * (255 - LEAST_DARK)) / 255;
				for (let x = block; x < end; x++) {
					const was = printData[base + x] as number;
					const is = pageData[base + x] as number;
					if (is >= was * limit || was < UNSEEN_BELOW) continue;
					const at = y * width + x;
					dark[at] = (255 * (1 - is / (was * light)) + 0.5) | 0;
					if (count === pixels.length) pixels = grown(pixels);
					pixels[count++] = at;
				}
			}
		}
	}
	lastCount = count;
	return { left, top, width, height, dark, print, pixels, count };
}

/** Light of the paper along a row of blocks, as a share of the print's white. */
function lightsAt(white: PaperWhite, printWhite: number, part: PixelBox, row: number): Float64Array {
	const lights = new Float64Array(Math.ceil(part.widthPx / BLOCK_PX));
	for (let i = 0; i < lights.length; i++) {
		const light = white.at(part.xPx + i * BLOCK_PX, part.yPx + row) / printWhite;
		lights[i] = light;
	}
	return lights;
}

// Blocks must not straddle the squares in which paper is measured.
if (SQUARE_PX % BLOCK_PX !== 0) throw new RangeError('residual: SQUARE_PX must be a multiple of BLOCK_PX');

/** The image's pixels four at a time; undefined where its rows do not begin at multiples of four. */
function wordsOf({ data, width }: GreyImage): Uint32Array | undefined {
	if (data.byteOffset % 4 !== 0 || data.length % 4 !== 0 || width % 4 !== 0) return undefined;
	return new Uint32Array(data.buffer, data.byteOffset, data.length / 4);
}

function grown(list: Int32Array<ArrayBuffer>): Int32Array<ArrayBuffer> {
	const larger = new Int32Array(list.length * 2);
	larger.set(list);
	return larger;
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

/** Darkness of a pixel of the page, 0 to 1; -1 where print hides it. Pixels outside the part read 0. */
export function darknessAt({ left, top, width, height, dark: values, print }: Residual, x: number, y: number): number {
	if (x < left || y < top || x >= left + width || y >= top + height) return 0;
	if ((print.data[y * print.width + x] as number) < UNSEEN_BELOW) return -1;
	return (values[(y - top) * width + x - left] as number) / 255;
}
