import type { GreyImage } from '../image';
import { TILE_PX, weightsOf, type BlurMap } from './blurMap';

/** Columns that are blurred or left together. */
const CHUNK_PX = 16;

/** A printed page as blurred as a photo of it. Where no print is near, the paper stays as it is and costs nothing. */
export function blurred(image: GreyImage, blur: BlurMap): GreyImage {
	const { width, height, data } = image;
	const white = lightest(image);
	const chunks = Math.ceil(width / CHUNK_PX);
	const printed = printedChunks(image, white, chunks);
	const across = new Float32Array(width * height);
	for (let y = 0; y < height; y++)
		for (let chunk = 0; chunk < chunks; chunk++) {
			if (printed[y * chunks + chunk] === 0) continue;
			const weights = weightsOf(blur.across[tileAt(blur, chunk * CHUNK_PX, y)] as number);
			const end = Math.min(width, (chunk + 1) * CHUNK_PX);
			blurAcross(data, across, y * width, chunk * CHUNK_PX, end, width, weights, white);
		}
	const result = new Uint8Array(width * height).fill(white);
	for (let y = 0; y < height; y++)
		for (let chunk = 0; chunk < chunks; chunk++) {
			const start = chunk * CHUNK_PX;
			const weights = weightsOf(blur.down[tileAt(blur, start, y)] as number);
			const reach = weights.length - 1;
			const last = Math.min(height - 1, y + reach);
			let from = Math.max(0, y - reach);
			while (from <= last && printed[from * chunks + chunk] === 0) from += 1;
			if (from <= last)
				blurDown(across, result, y, start, Math.min(width, start + CHUNK_PX), width, height, weights, white);
		}
	return { width, height, data: result };
}

const tileAt = ({ columns }: BlurMap, x: number, y: number): number =>
	((y / TILE_PX) | 0) * columns + ((x / TILE_PX) | 0);

/** What the print takes of the light along part of a row, blurred along it. */
function blurAcross(
	data: Uint8Array,
	across: Float32Array,
	base: number,
	start: number,
	end: number,
	width: number,
	weights: Float32Array,
	white: number
): void {
	const reach = weights.length - 1;
	const middle = weights[0] as number;
	if (start >= reach && end + reach <= width) {
		for (let at = base + start; at < base + end; at++) {
			let sum = middle * (data[at] as number);
			for (let k = 1; k <= reach; k++)
				sum += (weights[k] as number) * ((data[at - k] as number) + (data[at + k] as number));
			across[at] = white - sum;
		}
		return;
	}
	for (let x = start; x < end; x++) {
		let sum = middle * (white - (data[base + x] as number));
		for (let k = 1; k <= reach; k++) {
			const before = x >= k ? white - (data[base + x - k] as number) : 0;
			const after = x + k < width ? white - (data[base + x + k] as number) : 0;
			sum += (weights[k] as number) * (before + after);
		}
		across[base + x] = sum;
	}
}

/** What passes of the light along part of a row, blurred along its columns too. */
function blurDown(
	across: Float32Array,
	result: Uint8Array,
	y: number,
	start: number,
	end: number,
	width: number,
	height: number,
	weights: Float32Array,
	white: number
): void {
	const reach = weights.length - 1;
	const middle = weights[0] as number;
	const isInside = y >= reach && y + reach < height;
	for (let x = start, at = y * width + start; x < end; x++, at++) {
		let sum = middle * (across[at] as number);
		if (isInside)
			for (let k = 1, by = width; k <= reach; k++, by += width)
				sum += (weights[k] as number) * ((across[at - by] as number) + (across[at + by] as number));
		else
			for (let k = 1, by = width; k <= reach; k++, by += width)
				sum += (weights[k] as number) * ((across[at - by] ?? 0) + (across[at + by] ?? 0));
		result[at] = (white - sum + 0.5) | 0;
	}
}

/** 1 for each chunk of a row that has print in it or in a chunk beside it. */
function printedChunks({ width, height, data }: GreyImage, white: number, chunks: number): Uint8Array {
	const printed = new Uint8Array(chunks * height);
	for (let y = 0; y < height; y++)
		for (let x = 0; x < width; x++) {
			if ((data[y * width + x] as number) >= white) continue;
			const at = y * chunks + Math.floor(x / CHUNK_PX);
			printed[at] = 1;
			if (at > y * chunks) printed[at - 1] = 1;
			if (at + 1 < (y + 1) * chunks) printed[at + 1] = 1;
			x |= CHUNK_PX - 1;
		}
	return printed;
}

/** The lightest grey of a printed page. Kept for each page, which never changes. */
export function lightest(print: GreyImage): number {
	const known = whites.get(print);
	if (known !== undefined) return known;
	let white = 0;
	const { data } = print;
	for (let i = 0; i < data.length; i++) if ((data[i] as number) > white) white = data[i] as number;
	whites.set(print, white);
	return white;
}

const whites = new WeakMap<GreyImage, number>();
