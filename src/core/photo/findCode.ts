import type { GreyImage } from '../image';
import type { DecodeCode, FoundCode } from './foundCode';
import { halve } from './shrink';

/** A photo with more pixels than this is looked through for its code at half its size first. */
const LARGE_PX = 5e6;

/** Around a code that was seen and not read, this share of its size is looked at again, enlarged so many times. */
const AROUND = 0.35;
const TIMES = 3;

/** How strongly the enlarged part is sharpened; the second try is for photos that the first does not help. */
const STRENGTHS = [1.5, 4] as const;

/** The code in a photo: read, or at least seen. One that is seen and not read is looked at again, larger and sharper. */
export function findCode(photo: GreyImage, decode: DecodeCode): FoundCode | undefined {
	if (photo.width * photo.height > LARGE_PX) {
		const small = decode(halve(photo));
		if (small?.text !== undefined) return moved(small, 2, 0, 0);
	}
	const found = decode(photo);
	if (!found || found.text !== undefined) return found;
	const xs = found.corners.map(({ x }) => x);
	const ys = found.corners.map(({ y }) => y);
	const [left, right, top, bottom] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
	const by = AROUND * Math.max(right - left, bottom - top);
	const x = Math.max(0, Math.floor(left - by));
	const y = Math.max(0, Math.floor(top - by));
	const width = Math.min(photo.width, Math.ceil(right + by)) - x;
	const height = Math.min(photo.height, Math.ceil(bottom + by)) - y;
	if (!(width > 8 && height > 8 && width * height * TIMES * TIMES < LARGE_PX)) return found;
	const large = enlarged(photo, x, y, width, height);
	for (const strength of STRENGTHS) {
		const again = decode(sharpened(large, strength));
		if (again?.text !== undefined) return moved(again, 1 / TIMES, x, y);
	}
	return found;
}

const moved = ({ text, corners, modulePx }: FoundCode, scale: number, left: number, top: number): FoundCode => ({
	text,
	corners: corners.map(({ x, y }) => ({ x: left + x * scale, y: top + y * scale })),
	modulePx: modulePx * scale
});

/** A part of an image, each pixel TIMES as large, in proportion between. */
function enlarged(image: GreyImage, left: number, top: number, width: number, height: number): GreyImage {
	const [columns, rows] = [width * TIMES, height * TIMES];
	const data = new Uint8Array(columns * rows);
	const read = (x: number, y: number) =>
		image.data[
			Math.max(0, Math.min(image.height - 1, top + y)) * image.width + Math.max(0, Math.min(image.width - 1, left + x))
		] as number;
	for (let row = 0; row < rows; row++) {
		const fy = (row + 0.5) / TIMES - 0.5;
		const y = Math.floor(fy);
		for (let column = 0; column < columns; column++) {
			const fx = (column + 0.5) / TIMES - 0.5;
			const x = Math.floor(fx);
			const upper = read(x, y) * (x + 1 - fx) + read(x + 1, y) * (fx - x);
			const lower = read(x, y + 1) * (x + 1 - fx) + read(x + 1, y + 1) * (fx - x);
			data[row * columns + column] = Math.round(upper * (y + 1 - fy) + lower * (fy - y));
		}
	}
	return { width: columns, height: rows, data };
}

/** Every pixel further from the mean of the square around it. */
function sharpened({ width, height, data }: GreyImage, strength: number): GreyImage {
	const reach = 2 * TIMES;
	const result = new Uint8Array(data.length);
	for (let y = 0; y < height; y++)
		for (let x = 0; x < width; x++) {
			let [sum, count] = [0, 0];
			for (let row = Math.max(0, y - reach); row <= Math.min(height - 1, y + reach); row += TIMES)
				for (let column = Math.max(0, x - reach); column <= Math.min(width - 1, x + reach); column += TIMES) {
					sum += data[row * width + column] as number;
					count += 1;
				}
			const grey = data[y * width + x] as number;
			result[y * width + x] = Math.max(0, Math.min(255, Math.round(grey + strength * (grey - sum / count))));
		}
	return { width, height, data: result };
}
