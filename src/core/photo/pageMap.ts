import type { GreyImage, PixelBox } from '../image';
import { slopesAt, type Homography } from './homography';

/** Pixels of the 200 dpi page between two nodes of a field. */
export const NODE_PX = 16;

/**
 * How far paper that is not flat strays from the plane through its corners: at each node, row by row, the shift in
 * page pixels, first x then y.
 */
export interface Field {
	readonly columns: number;
	readonly rows: number;
	readonly shifts: Float32Array;
}

/** Where each place of the page is in the photo: shifted by the field, then seen through the homography. */
export interface PageMap {
	readonly widthPx: number;
	readonly heightPx: number;
	/** From pixels of the 200 dpi page to pixels of the photo. */
	readonly view: Homography;
	readonly field: Field;
}

export function flatField(widthPx: number, heightPx: number): Field {
	const columns = Math.ceil(widthPx / NODE_PX) + 1;
	const rows = Math.ceil(heightPx / NODE_PX) + 1;
	return { columns, rows, shifts: new Float32Array(2 * columns * rows) };
}

/** The field's shift at a place of the page, between nodes in proportion. */
export function shiftAt({ columns, rows, shifts }: Field, x: number, y: number): readonly [number, number] {
	const fx = Math.max(0, Math.min(columns - 1.001, x / NODE_PX));
	const fy = Math.max(0, Math.min(rows - 1.001, y / NODE_PX));
	const [x0, y0] = [Math.floor(fx), Math.floor(fy)];
	const [wx, wy] = [fx - x0, fy - y0];
	const at = 2 * (y0 * columns + x0);
	const below = at + 2 * columns;
	const [a, b, c, d] = [(1 - wx) * (1 - wy), wx * (1 - wy), (1 - wx) * wy, wx * wy];
	return [
		a * (shifts[at] as number) +
			b * (shifts[at + 2] as number) +
			c * (shifts[below] as number) +
			d * (shifts[below + 2] as number),
		a * (shifts[at + 1] as number) +
			b * (shifts[at + 3] as number) +
			c * (shifts[below + 1] as number) +
			d * (shifts[below + 3] as number)
	];
}

/** Columns over which the way through the photo is taken as straight: bends between are under a hundredth of a pixel. */
const STRAIGHT_PX = 8;

/** The result is drawn in strips of so many columns: a sheet that lies crosswise is then read from memory that is at hand. */
const STRIP_PX = 64;

/** Places in the photo are told in 65536ths of a pixel: whole numbers are quick, and finer nothing is seen. */
const FINE_BITS = 16;
const FINE = 1 << FINE_BITS;

/** Photos up to so many times finer than the result are taken as they are: half of them would be coarser than the result. */
const FINER_TAKEN = 1.9;

/**
 * The page as the photo shows it, `stride` pixels of the 200 dpi page to one of the result; `part`: only this part of
 * the result, which may reach beyond the page. `levels`: the photo and its halves. Each place is taken from the coarsest
 * level that is about as fine as the result there, so that few pixels are skipped and none made up.
 */
export function rectify(
	levels: readonly GreyImage[],
	map: PageMap,
	stride: number,
	part: PixelBox = {
		xPx: 0,
		yPx: 0,
		widthPx: Math.floor(map.widthPx / stride),
		heightPx: Math.floor(map.heightPx / stride)
	}
): GreyImage {
	const { widthPx: width, heightPx: height } = part;
	const data = new Uint8Array(width * height);
	const along = new Float64Array(3 * (STRIP_PX / STRAIGHT_PX + 1));
	for (let left = 0; left < width; left += STRIP_PX) {
		const count = Math.min(STRIP_PX, width - left);
		for (let row = 0; row < height; row++) {
			const y = (part.yPx + row + 0.5) * stride;
			placesAlong(map, along, (part.xPx + left + 0.5) * stride, STRAIGHT_PX * stride, y);
			drawRow(levels, along, data, row * width + left, count, stride);
		}
	}
	return { width, height, data };
}

/** Pixels of the photo to one of the page, by area, at a place of the page. */
export function scaleAt({ view, field }: PageMap, x: number, y: number): number {
	const [dx, dy] = shiftAt(field, x, y);
	const [a, b, c, d] = slopesAt(view, x + dx, y + dy);
	return Math.sqrt(Math.abs(a * d - b * c));
}

/** How many times the photo is halved before it is looked at where it has so many pixels to one of the result. */
export function levelFor(scale: number): number {
	let level = 0;
	for (let left = scale; left >= FINER_TAKEN; left /= 2) level += 1;
	return level;
}

/** Where places along a row of the page, `step` page pixels apart, are in the photo: x, y, and the photo's scale there. */
function placesAlong(
	{ view, field: { columns, rows, shifts } }: PageMap,
	along: Float64Array,
	first: number,
	step: number,
	y: number
): void {
	const [a, b, c, d, e, f, g, h] = view as unknown as readonly [
		number,
		number,
		number,
		number,
		number,
		number,
		number,
		number
	];
	const area = Math.sqrt(Math.abs(a * (e - f * h) - b * (d - f * g) + c * (d * h - e * g)));
	const fy = Math.max(0, Math.min(rows - 1.001, y / NODE_PX));
	const y0 = fy | 0;
	const wy = fy - y0;
	const upper = 2 * y0 * columns;
	const lower = upper + 2 * columns;
	for (let i = 0, x = first; i < along.length; i += 3, x += step) {
		const fx = Math.max(0, Math.min(columns - 1.001, x / NODE_PX));
		const x0 = fx | 0;
		const wx = fx - x0;
		const k = upper + 2 * x0;
		const l = lower + 2 * x0;
		const px =
			x +
			(1 - wy) * ((1 - wx) * (shifts[k] as number) + wx * (shifts[k + 2] as number)) +
			wy * ((1 - wx) * (shifts[l] as number) + wx * (shifts[l + 2] as number));
		const py =
			y +
			(1 - wy) * ((1 - wx) * (shifts[k + 1] as number) + wx * (shifts[k + 3] as number)) +
			wy * ((1 - wx) * (shifts[l + 1] as number) + wx * (shifts[l + 3] as number));
		const w = 1 / (g * px + h * py + 1);
		along[i] = (a * px + b * py + c) * w;
		along[i + 1] = (d * px + e * py + f) * w;
		along[i + 2] = area * w * Math.sqrt(Math.abs(w));
	}
}

/** Fills a row of the result with greys in proportion between the four pixels around each place; beyond the edge, the edge's. */
function drawRow(
	levels: readonly GreyImage[],
	along: Float64Array,
	result: Uint8Array,
	base: number,
	count: number,
	stride: number
): void {
	for (let i = 0, from = 0; from < count; i += 3, from += STRAIGHT_PX) {
		const level = Math.min(levels.length - 1, levelFor((along[i + 2] as number) * stride));
		const { width, height, data } = levels[level] as GreyImage;
		const shrink = 1 / (1 << level);
		const x0 = (along[i] as number) * shrink - 0.5;
		const y0 = (along[i + 1] as number) * shrink - 0.5;
		const stepX = ((along[i + 3] as number) * shrink - 0.5 - x0) / STRAIGHT_PX;
		const stepY = ((along[i + 4] as number) * shrink - 0.5 - y0) / STRAIGHT_PX;
		const [lastX, lastY] = [width - 1.001, height - 1.001];
		const [endX, endY] = [x0 + STRAIGHT_PX * stepX, y0 + STRAIGHT_PX * stepY];
		const end = base + Math.min(count, from + STRAIGHT_PX);
		if (x0 >= 0 && endX >= 0 && y0 >= 0 && endY >= 0 && x0 < lastX && endX < lastX && y0 < lastY && endY < lastY) {
			let fx = (x0 * FINE) | 0;
			let fy = (y0 * FINE) | 0;
			const fineX = (stepX * FINE) | 0;
			const fineY = (stepY * FINE) | 0;
			for (let to = base + from; to < end; to++) {
				result[to] = greyAt(data, width, fx, fy);
				fx = (fx + fineX) | 0;
				fy = (fy + fineY) | 0;
			}
		} else
			for (let to = base + from, k = 0; to < end; to++, k++) {
				const fx = Math.max(0, Math.min(lastX, x0 + k * stepX)) * FINE;
				const fy = Math.max(0, Math.min(lastY, y0 + k * stepY)) * FINE;
				result[to] = greyAt(data, width, fx | 0, fy | 0);
			}
	}
}

/** Grey between the four pixels around a place that is told in FINE parts, rounded. */
function greyAt(data: Uint8Array, width: number, fx: number, fy: number): number {
	const at = Math.imul(fy >> FINE_BITS, width) + (fx >> FINE_BITS);
	const wx = (fx >> 8) & 255;
	const wy = (fy >> 8) & 255;
	const upper = (data[at] as number) * (256 - wx) + (data[at + 1] as number) * wx;
	const lower = (data[at + width] as number) * (256 - wx) + (data[at + width + 1] as number) * wx;
	return (Math.imul(upper, 256 - wy) + Math.imul(lower, wy) + 32768) >> 16;
}
