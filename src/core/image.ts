/**
 * A grey picture, one byte a pixel, row by row from the top left: 0 is black, 255 is white.
 * Index of a pixel: `y * width + x`.
 */
export interface GreyImage {
	readonly width: number;
	readonly height: number;
	readonly data: Uint8Array;
}

/** A rectangle of whole pixels on a page image. */
export interface PixelBox {
	readonly xPx: number;
	readonly yPx: number;
	readonly widthPx: number;
	readonly heightPx: number;
}

/**
 * Resolution of every page image in the app. 200 dpi with 8-bit grey is what published ballot image
 * sets use (University of Connecticut bubble set; the PERFECT project at Lehigh University).
 */
export const PAGE_DPI = 200;

/** Points (1/72 in) in one pixel of a page image: 0.36. Targets lie on multiples of it. */
export const PT_PER_PX = 72 / PAGE_DPI;

/** Pixels of a page image in one point. */
export const PX_PER_PT = PAGE_DPI / 72;

/** Points in one millimetre. */
export const PT_PER_MM = 72 / 25.4;

/** Pixels of a page image in one millimetre. */
export const PX_PER_MM = PAGE_DPI / 25.4;
