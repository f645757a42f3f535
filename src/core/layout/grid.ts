import { PX_PER_PT } from '../image';

/** A length that is a whole number of pixels but for rounding noise is one. */
const NOISE_PX = 1e-6;

/** The smallest length or coordinate on the 200 dpi grid (multiples of 0.36 pt) that is not below `pt`. */
export function snapUp(pt: number): number {
	return fromPixels(Math.ceil(pt * PX_PER_PT - NOISE_PX));
}

export function snapDown(pt: number): number {
	return fromPixels(Math.floor(pt * PX_PER_PT + NOISE_PX));
}

/** The length on the grid nearest to `pt`, one pixel at least. */
export function snapSize(pt: number): number {
	return fromPixels(Math.max(1, Math.round(pt * PX_PER_PT)));
}

/** 9/25 is 0.36 without its rounding error. */
function fromPixels(px: number): number {
	return (px * 9) / 25;
}
