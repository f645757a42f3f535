import jpeg from 'jpeg-js';
import { PNG } from 'pngjs';
import type { GreyImage } from '../core/image';

/** More pixels than any phone's camera gives; keeps a wrong file out of memory. */
const LARGEST_MEGAPIXELS = 110;
const LARGEST_MEGABYTES = 1500;

/** Whether a file begins as a JPEG or PNG does. */
export const isPicture = (bytes: Uint8Array): boolean =>
	(bytes[0] === 0xff && bytes[1] === 0xd8) || (bytes[0] === 0x89 && bytes[1] === 0x50);

/**
 * The grey of a JPEG or PNG file. Which way the camera was held does not matter here: a sheet is found however it is
 * turned. Throws an Error when the file is damaged or too large.
 */
export function greyOf(bytes: Buffer): GreyImage {
	const { width, height, data } =
		bytes[0] === 0xff
			? jpeg.decode(bytes, {
					useTArray: true,
					formatAsRGBA: true,
					maxResolutionInMP: LARGEST_MEGAPIXELS,
					maxMemoryUsageInMB: LARGEST_MEGABYTES
				})
			: PNG.sync.read(bytes);
	const grey = new Uint8Array(width * height);
	// Rec. 601 luma, in 256ths; what is clear lies on white paper.
	for (let i = 0, at = 0; i < grey.length; i++, at += 4) {
		const opaque = (data[at + 3] as number) / 255;
		const luma = (77 * (data[at] as number) + 150 * (data[at + 1] as number) + 29 * (data[at + 2] as number)) / 256;
		grey[i] = Math.round(luma * opaque + 255 * (1 - opaque));
	}
	return { width, height, data: grey };
}
