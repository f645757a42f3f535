import { around, type Box } from '../../src/core/geometry';
import type { Stroke, StrokePoint } from '../../src/core/ink/stroke';

/** A sample as the sets hold it: pen strokes, or 28 x 28 bits of a photograph. */
export interface Sample {
	readonly id?: number;
	readonly writer?: string;
	readonly strokes?: readonly (readonly (readonly [number, number, number])[])[];
	readonly outline?:
		readonly (readonly [number, number, number])[] | readonly (readonly (readonly [number, number, number])[])[];
	readonly bits?: string;
}

/** A sample brought to the page: strokes in points, or bits with the box on which they are stamped. */
export interface PlacedInk {
	readonly strokes: readonly Stroke[];
	readonly stamps: readonly { readonly bits: Uint8Array; readonly box: Box }[];
}

const SIDE = 28;

/** 28 x 28 zeros and ones from base64, one bit a pixel, most significant first. */
export function bitsOf(base64: string): Uint8Array {
	const bytes = Buffer.from(base64, 'base64');
	return Uint8Array.from({ length: SIDE * SIDE }, (_, i) => ((bytes[i >> 3] ?? 0) >> (7 - (i & 7))) & 1);
}

/** The box of a sample's ink in its own units. */
export function inkBox(sample: Sample): Box {
	if (sample.bits !== undefined) {
		const bits = bitsOf(sample.bits);
		const boxes: Box[] = [];
		bits.forEach((bit, i) => {
			if (bit === 1) boxes.push({ x: i % SIDE, y: Math.floor(i / SIDE), width: 1, height: 1 });
		});
		return around(boxes);
	}
	return around((sample.strokes ?? []).flat().map(([x, y]) => ({ x, y, width: 0, height: 0 })));
}

/** Maps the box `from` of a sample onto `to` on the page, in points; `widthMm` is the pen's. */
export function placeSample(
	sample: Sample,
	from: Box,
	to: Box,
	tool: Stroke['tool'],
	widthMm: number,
	turn = 0
): PlacedInk {
	const scaleX = from.width > 0 ? to.width / from.width : 0;
	const scaleY = from.height > 0 ? to.height / from.height : 0;
	if (sample.bits !== undefined) {
		const box = {
			x: to.x - from.x * scaleX,
			y: to.y - from.y * scaleY,
			width: SIDE * scaleX,
			height: SIDE * scaleY
		};
		return { strokes: [], stamps: [{ bits: bitsOf(sample.bits), box }] };
	}
	const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
	const [middleX, middleY] = [to.x + to.width / 2, to.y + to.height / 2];
	const strokes = (sample.strokes ?? []).map((points): Stroke => {
		return {
			tool,
			widthMm,
			points: points.map(([x, y, t]): StrokePoint => {
				const dx = (x - from.x) * scaleX - to.width / 2;
				const dy = (y - from.y) * scaleY - to.height / 2;
				return [middleX + dx * cos - dy * sin, middleY + dx * sin + dy * cos, t];
			})
		};
	});
	return { strokes, stamps: [] };
}

/** Grey that a stamped mark leaves of the paper, as of a dark pen. */
const STAMP_LIGHT = 0.13;

/** Stamps bits into the page, smoothly enlarged, and changes it. */
export function stampInPlace(
	page: { readonly width: number; readonly height: number; readonly data: Uint8Array },
	bits: Uint8Array,
	box: Box,
	pxPerPt: number
): void {
	const [left, top] = [box.x * pxPerPt, box.y * pxPerPt];
	const [wide, high] = [box.width * pxPerPt, box.height * pxPerPt];
	const at = (x: number, y: number) => (x < 0 || y < 0 || x >= SIDE || y >= SIDE ? 0 : (bits[y * SIDE + x] ?? 0));
	for (let y = Math.max(0, Math.floor(top)); y < Math.min(page.height, top + high); y++)
		for (let x = Math.max(0, Math.floor(left)); x < Math.min(page.width, left + wide); x++) {
			const u = ((x + 0.5 - left) / wide) * SIDE - 0.5;
			const v = ((y + 0.5 - top) / high) * SIDE - 0.5;
			const [i, j] = [Math.floor(u), Math.floor(v)];
			const [fu, fv] = [u - i, v - j];
			const value =
				(at(i, j) * (1 - fu) + at(i + 1, j) * fu) * (1 - fv) + (at(i, j + 1) * (1 - fu) + at(i + 1, j + 1) * fu) * fv;
			// Enlarged bits are made sharp again at a half, over about one pixel of the page.
			const sharp = Math.max(0, Math.min(1, 0.5 + (value - 0.5) * Math.max(1, wide / SIDE)));
			if (sharp === 0) continue;
			const pixel = y * page.width + x;
			page.data[pixel] = Math.round((page.data[pixel] ?? 0) * (1 - sharp * (1 - STAMP_LIGHT)));
		}
}
