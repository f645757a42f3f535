import type { GreyImage } from '../image';

/** The weights of a normal blur on one side of its middle, the middle first. `sigma` in pixels. */
export function blurWeights(sigma: number): Float32Array {
	const reach = Math.max(1, Math.ceil(3 * sigma));
	const weights = Float32Array.from({ length: reach + 1 }, (_, i) => Math.exp(-(i * i) / (2 * sigma * sigma)));
	const sum = weights.reduce((total, weight, i) => total + (i === 0 ? 1 : 2) * weight, 0);
	return weights.map((weight) => weight / sum);
}

/** Columns that are blurred or left together. */
const CHUNK_PX = 16;

/** A printed page blurred. Where no print is near, the paper stays as it is and costs nothing. */
export function blurred(image: GreyImage, sigma: number): GreyImage {
	const { width, height, data } = image;
	const weights = blurWeights(sigma);
	const reach = weights.length - 1;
	if (reach > CHUNK_PX)
		throw new RangeError(`blurred: expected a blur of at most ${CHUNK_PX / 3} pixels, got ${sigma}`);
	const white = lightest(image);
	const chunks = Math.ceil(width / CHUNK_PX);
	const printed = printedChunks(image, white, chunks);
	const across = new Float32Array(width * height);
	for (let y = 0; y < height; y++)
		for (let chunk = 0; chunk < chunks; chunk++) {
			if (printed[y * chunks + chunk] === 0) continue;
			const base = y * width;
			const end = Math.min(width, (chunk + 1) * CHUNK_PX);
			for (let x = chunk * CHUNK_PX; x < end; x++) {
				let sum = (weights[0] as number) * (white - (data[base + x] as number));
				for (let k = 1; k <= reach; k++) {
					const before = x >= k ? white - (data[base + x - k] as number) : 0;
					const after = x + k < width ? white - (data[base + x + k] as number) : 0;
					sum += (weights[k] as number) * (before + after);
				}
				across[base + x] = sum;
			}
		}
	const result = new Uint8Array(width * height).fill(white);
	const row = new Float32Array(CHUNK_PX);
	for (let y = 0; y < height; y++)
		for (let chunk = 0; chunk < chunks; chunk++) {
			const start = chunk * CHUNK_PX;
			const end = Math.min(width, start + CHUNK_PX);
			let any = false;
			for (let from = Math.max(0, y - reach); from <= Math.min(height - 1, y + reach); from++) {
				if (printed[from * chunks + chunk] === 0) continue;
				if (!any) row.fill(0);
				any = true;
				const weight = weights[from < y ? y - from : from - y] as number;
				const base = from * width;
				for (let x = start; x < end; x++)
					row[x - start] = (row[x - start] as number) + weight * (across[base + x] as number);
			}
			if (!any) continue;
			for (let x = start; x < end; x++) result[y * width + x] = (white - (row[x - start] as number) + 0.5) | 0;
		}
	return { width, height, data: result };
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
