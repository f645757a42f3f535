import type { Point } from '../geometry';
import type { GreyImage } from '../image';

/** A QR code that was seen in a picture. */
export interface FoundCode {
	/** What it says; undefined where it was seen and could not be read. */
	readonly text: string | undefined;
	/** Its outer corners in the picture: top left, top right, bottom right, bottom left as it was printed. */
	readonly corners: readonly Point[];
	/** Middles of its three finder patterns: top left, top right, bottom left, where the code was read; in any order where not. */
	readonly finders: readonly Point[];
	/** Size of one module in the picture, in pixels. */
	readonly modulePx: number;
}

/** Looks for a QR code. Passed in, because the core holds no library. */
export type DecodeCode = (image: GreyImage) => FoundCode | undefined;
