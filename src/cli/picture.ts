import jpeg from 'jpeg-js';
import { PNG } from 'pngjs';
import type { GreyImage } from '../core/image';
import { LARGEST_PHOTO_PX, lumaInto } from '../core/photo/photoFile';

/** What opening a photo may take of memory. */
const MOST_MEGABYTES = 1500;

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
					maxResolutionInMP: LARGEST_PHOTO_PX / 1e6,
					maxMemoryUsageInMB: MOST_MEGABYTES
				})
			: PNG.sync.read(bytes);
	const grey = new Uint8Array(width * height);
	lumaInto(grey, 0, data);
	return { width, height, data: grey };
}
