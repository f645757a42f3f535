import type { GreyImage, PixelBox } from '../image';
import { project, slopesAt, type Homography } from './homography';

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

/**
 * The page as the photo shows it, `stride` pixels of the 200 dpi page to one of the result; `part`: only this part of
 * the result, which may reach beyond the page. `levels`: the photo and its halves. Each place is taken from the level
 * whose pixels are nearest in size to the result's, so that none are skipped.
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
	const [a, b, c, d] = slopesAt(map.view, (part.xPx + width / 2) * stride, (part.yPx + height / 2) * stride);
	const scale = Math.sqrt(Math.abs(a * d - b * c)) * stride;
	const level = Math.max(0, Math.min(levels.length - 1, Math.round(Math.log2(Math.max(1, scale)))));
	const source = levels[level] as GreyImage;
	const shrunk = 2 ** level;
	const placeOf = (column: number, y: number): readonly [number, number] => {
		const x = (part.xPx + column + 0.5) * stride;
		const [dx, dy] = shiftAt(map.field, x, y);
		const at = project(map.view, x + dx, y + dy);
		return [at.x / shrunk - 0.5, at.y / shrunk - 0.5];
	};
	for (let row = 0; row < height; row++) {
		const y = (part.yPx + row + 0.5) * stride;
		let [fromX, fromY] = placeOf(0, y);
		for (let column = 0; column < width; column += STRAIGHT_PX) {
			const [toX, toY] = placeOf(column + STRAIGHT_PX, y);
			const [stepX, stepY] = [(toX - fromX) / STRAIGHT_PX, (toY - fromY) / STRAIGHT_PX];
			const end = Math.min(width, column + STRAIGHT_PX);
			const base = row * width;
			for (let x = column; x < end; x++) {
				data[base + x] = greyAt(source, fromX, fromY);
				fromX += stepX;
				fromY += stepY;
			}
			fromX = toX;
			fromY = toY;
		}
	}
	return { width, height, data };
}

/** Grey between the four pixels around a place, rounded; the edge's own beyond the edge. */
function greyAt({ width, height, data }: GreyImage, x: number, y: number): number {
	const fx = x < 0 ? 0 : x > width - 1.001 ? width - 1.001 : x;
	const fy = y < 0 ? 0 : y > height - 1.001 ? height - 1.001 : y;
	const x0 = fx | 0;
	const y0 = fy | 0;
	const wx = fx - x0;
	const wy = fy - y0;
	const at = y0 * width + x0;
	const upper = (data[at] as number) + wx * ((data[at + 1] as number) - (data[at] as number));
	const below = at + width;
	const lower = (data[below] as number) + wx * ((data[below + 1] as number) - (data[below] as number));
	return (upper + wy * (lower - upper) + 0.5) | 0;
}
