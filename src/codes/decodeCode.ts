import decodeQR, { type FinderPoints } from 'qr/decode.js';
import type { FoundCode } from '../core/photo/foundCode';
import type { GreyImage } from '../core/image';

/** Milliseconds that the library may spend on further tries; it gives up by itself much earlier. */
const LONGEST_MS = 2000;

/** The first QR code in a picture, read or at least seen; undefined where there is none. */
export function decodeCode({ width, height, data }: GreyImage): FoundCode | undefined {
	// The library takes grey as the first plane of a video frame; the planes of colour after it are never read.
	const frame = new Uint8Array(width * height + 2 * Math.ceil(width / 2) * Math.ceil(height / 2));
	frame.set(data);
	let seen: FinderPoints | undefined;
	let text: string | undefined;
	try {
		text = decodeQR(
			{ width, height, data: frame },
			{ format: 'I420', timeLimit: LONGEST_MS, pointsOnDetect: (points) => (seen = points) }
		);
	} catch {
		// No code, or one that cannot be read: the library throws for both.
	}
	if (!seen) return undefined;
	const { tl, tr, bl, bounds } = seen;
	const point = ({ x, y }: { readonly x: number; readonly y: number }) => ({ x, y });
	return { text, corners: bounds.map(point), finders: [tl, tr, bl].map(point), modulePx: tl.moduleSize };
}
