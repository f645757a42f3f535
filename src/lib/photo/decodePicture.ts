import type { GreyImage } from '$core/image';
import { LARGEST_PHOTO_BYTES, LARGEST_PHOTO_PX, lumaInto } from '$core/photo/photoFile';
import { readHeader } from './pictureHeader';

/**
 * Why a file is no photo that can be read. A closed list: `paper.refusal` of the locale files has words for each.
 *
 * - `heic`: the format that some phones save; most browsers cannot open it.
 * - `pdf`, `not-a-picture`: no photo at all.
 * - `too-large`: more than any phone's camera gives.
 * - `damaged`: begins as a picture and cannot be opened.
 * - `canvas-blocked`: the browser does not let a page see the pixels of a picture.
 */
export const FILE_REFUSALS = ['heic', 'pdf', 'not-a-picture', 'too-large', 'damaged', 'canvas-blocked'] as const;
export type FileRefusal = (typeof FILE_REFUSALS)[number];

/** A file that cannot be read, and why: told to the voter, not a fault of the app. */
export class FileRefused extends Error {
	readonly reason: FileRefusal;

	constructor(reason: FileRefusal) {
		super(`the file is refused: ${reason}`);
		this.reason = reason;
	}
}

/** A canvas, on the page or in a worker, of the size asked for. */
export type MakeCanvas = (width: number, height: number) => OffscreenCanvas | HTMLCanvasElement;

/**
 * Longer side to which a photo is made smaller while it is opened: a sheet that fills it has 270 pixels to an inch, and
 * older phones give a page no canvas of more than 16.7 million pixels.
 */
export const LONGEST_PX = 3000;

/** Where a picture's size is looked for first; depth maps and previews can push it further back. */
const HEAD_BYTES = 256 * 1024;

/** Rows whose colours are in memory at one time. */
const STRIP_PX = 256;

/** The grey of a photo file, turned the right way and no larger than it helps. Throws FileRefused. */
export async function decodeFile(file: Blob, makeCanvas: MakeCanvas): Promise<GreyImage> {
	if (file.size > LARGEST_PHOTO_BYTES) throw new FileRefused('too-large');
	let header = readHeader(new Uint8Array(await file.slice(0, HEAD_BYTES).arrayBuffer()));
	if (header.kind === 'heic' || header.kind === 'pdf') throw new FileRefused(header.kind);
	if (header.kind === 'other') throw new FileRefused('not-a-picture');
	if (!header.size) header = readHeader(new Uint8Array(await file.arrayBuffer()));
	const { size } = header;
	if (!size || size.width * size.height === 0) throw new FileRefused('damaged');
	if (size.width * size.height > LARGEST_PHOTO_PX) throw new FileRefused('too-large');
	const bitmap = await open(file, size);
	try {
		return greyOfPicture(bitmap, makeCanvas);
	} finally {
		bitmap.close();
	}
}

async function open(file: Blob, { width, height }: { width: number; height: number }): Promise<ImageBitmap> {
	const scale = LONGEST_PX / Math.max(width, height);
	const turned = { imageOrientation: 'from-image' } as const;
	const options = scale < 1 ? { ...turned, resizeWidth: Math.round(width * scale), resizeQuality: 'high' } : turned;
	try {
		return await createImageBitmap(file, options as ImageBitmapOptions);
	} catch {
		// An older browser may not know the options: the canvas then makes the picture smaller.
		return createImageBitmap(file).catch(() => {
			throw new FileRefused('damaged');
		});
	}
}

/** The grey of a picture the browser has opened. Throws FileRefused where the browser hides its pixels. */
export function greyOfPicture(picture: ImageBitmap, makeCanvas: MakeCanvas, longestPx = LONGEST_PX): GreyImage {
	const scale = Math.min(1, longestPx / Math.max(picture.width, picture.height));
	const width = Math.max(1, Math.round(picture.width * scale));
	const height = Math.max(1, Math.round(picture.height * scale));
	const canvas = makeCanvas(width, height);
	const context = canvas.getContext('2d', { willReadFrequently: true });
	if (!context || !showsPixels(context)) throw new FileRefused('canvas-blocked');
	// What is clear lies on white paper.
	context.fillStyle = '#fff';
	context.fillRect(0, 0, width, height);
	context.drawImage(picture, 0, 0, width, height);
	const data = new Uint8Array(width * height);
	for (let top = 0; top < height; top += STRIP_PX) {
		const rows = Math.min(STRIP_PX, height - top);
		lumaInto(data, top * width, context.getImageData(0, top, width, rows).data);
	}
	// Some browsers keep a canvas' memory until it is small.
	canvas.width = canvas.height = 1;
	return { width, height, data };
}

/** Browsers that guard against being recognised may give other pixels than were painted. */
function showsPixels(context: OffscreenCanvasRenderingContext2D | CanvasRenderingContext2D): boolean {
	const greys = [40, 90, 150, 210];
	greys.forEach((grey, x) => {
		context.fillStyle = `rgb(${grey} ${grey} ${grey})`;
		context.fillRect(x, 0, 1, 1);
	});
	const { data } = context.getImageData(0, 0, greys.length, 1);
	return greys.every((grey, x) => Math.abs((data[4 * x] ?? 0) - grey) <= 4);
}
