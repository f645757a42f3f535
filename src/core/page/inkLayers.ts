import type { GreyImage, PixelBox } from '../image';
import { PLANE_COUNT, PLANES } from './inkTools';

/** Side of a tile, in pixels: only tiles that ink touches are kept and laid over the print. */
export const TILE_PX = 64;

/**
 * How much light the ink on a part of a page takes, pixel by pixel, in planes (see PLANES). Kept as
 * square tiles counted from the page's origin; a tile nobody touched does not exist.
 */
export interface InkLayers {
	readonly window: PixelBox;
	readonly firstColumn: number;
	readonly firstRow: number;
	readonly columns: number;
	readonly rows: number;
	readonly tiles: (Float32Array | undefined)[];
}

/** Empty layers over a window of a page. */
export function inkLayers(window: PixelBox): InkLayers {
	const firstColumn = Math.floor(window.xPx / TILE_PX);
	const firstRow = Math.floor(window.yPx / TILE_PX);
	const columns = Math.ceil((window.xPx + window.widthPx) / TILE_PX) - firstColumn;
	const rows = Math.ceil((window.yPx + window.heightPx) / TILE_PX) - firstRow;
	const tiles: (Float32Array | undefined)[] = [];
	tiles.length = PLANE_COUNT * columns * rows;
	return { window, firstColumn, firstRow, columns, rows, tiles };
}

/** The tile of a plane that holds pixel (x, y) of the page, made when it is not there yet. */
export function tileAt(layers: InkLayers, plane: number, x: number, y: number): Float32Array {
	const index = tileIndex(layers, plane, x, y);
	return (layers.tiles[index] ??= new Float32Array(TILE_PX * TILE_PX));
}

/** The same, undefined where nothing lies there. */
export function tileIfAny(layers: InkLayers, plane: number, x: number, y: number): Float32Array | undefined {
	return layers.tiles[tileIndex(layers, plane, x, y)];
}

function tileIndex({ firstColumn, firstRow, columns, rows }: InkLayers, plane: number, x: number, y: number): number {
	return (plane * rows + Math.floor(y / TILE_PX) - firstRow) * columns + Math.floor(x / TILE_PX) - firstColumn;
}

/** Takes a share of the light at a pixel of the window, beside what is already taken, in the plane that no eraser reaches. */
export function darken(layers: InkLayers, x: number, y: number, share: number): void {
	const tile = tileAt(layers, PLANES.paper, x, y);
	const at = (y % TILE_PX) * TILE_PX + (x % TILE_PX);
	const old = tile[at] ?? 0;
	tile[at] = old + share * (1 - old);
}

/** Calls `draw` for each row of a box on the page, cut to the window: y, first x, one past the last x. */
export function rowsWithin(
	{ window }: InkLayers,
	left: number,
	top: number,
	right: number,
	bottom: number,
	draw: (y: number, x0: number, x1: number) => void
): void {
	const x0 = Math.max(window.xPx, Math.floor(left));
	const x1 = Math.min(window.xPx + window.widthPx, Math.ceil(right));
	const y1 = Math.min(window.yPx + window.heightPx, Math.ceil(bottom));
	if (x0 >= x1) return;
	for (let y = Math.max(window.yPx, Math.floor(top)); y < y1; y++) draw(y, x0, x1);
}

/** A copy of one plane inside a box, row by row; 0 outside the window. */
export function copyPlane(layers: InkLayers, plane: number, box: PixelBox): Float32Array {
	const copy = new Float32Array(box.widthPx * box.heightPx);
	rowsWithin(layers, box.xPx, box.yPx, box.xPx + box.widthPx, box.yPx + box.heightPx, (y, x0, x1) => {
		for (let x = x0; x < x1; x++) {
			const tile = tileIfAny(layers, plane, x, y);
			if (tile) copy[(y - box.yPx) * box.widthPx + x - box.xPx] = tile[(y % TILE_PX) * TILE_PX + (x % TILE_PX)] ?? 0;
		}
	});
	return copy;
}

/** Writes the print with the layers' ink over it into `page`, inside `window` only. */
export function layOverPrintInPlace(page: GreyImage, print: GreyImage, layers: InkLayers, window: PixelBox): void {
	const { width } = print;
	const source = print.data;
	const out = page.data;
	const right = window.xPx + window.widthPx;
	const bottom = window.yPx + window.heightPx;
	for (let y = window.yPx; y < bottom; y++)
		out.set(source.subarray(y * width + window.xPx, y * width + right), y * width + window.xPx);
	const { firstColumn, firstRow, columns, rows, tiles } = layers;
	const perPlane = columns * rows;
	for (let tile = 0; tile < perPlane; tile++) {
		const a = tiles[tile];
		const b = tiles[perPlane + tile];
		const c = tiles[2 * perPlane + tile];
		const d = tiles[3 * perPlane + tile];
		if (!a && !b && !c && !d) continue;
		const left = (firstColumn + (tile % columns)) * TILE_PX;
		const top = (firstRow + Math.floor(tile / columns)) * TILE_PX;
		const x0 = Math.max(window.xPx, left);
		const x1 = Math.min(right, left + TILE_PX);
		const y0 = Math.max(window.yPx, top);
		const y1 = Math.min(bottom, top + TILE_PX);
		for (let y = y0; y < y1; y++) {
			let at = (y - top) * TILE_PX + x0 - left;
			for (let pixel = y * width + x0; pixel < y * width + x1; pixel++, at++) {
				let light = 1;
				if (a) light *= 1 - (a[at] ?? 0);
				if (b) light *= 1 - (b[at] ?? 0);
				if (c) light *= 1 - (c[at] ?? 0);
				if (d) light *= 1 - (d[at] ?? 0);
				if (light < 1) out[pixel] = ((source[pixel] ?? 0) * light + 0.5) | 0;
			}
		}
	}
}
