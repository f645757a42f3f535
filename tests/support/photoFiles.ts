import jpeg from 'jpeg-js';
import { PNG } from 'pngjs';
import type { GreyImage } from '../../src/core/image';

/** A grey picture as a JPEG file. */
export const jpegOf = (image: GreyImage, quality = 85): Buffer =>
	jpeg.encode({ width: image.width, height: image.height, data: coloursOf(image) }, quality).data;

/** A grey picture as a PNG file. */
export function pngOf(image: GreyImage): Buffer {
	const png = new PNG({ width: image.width, height: image.height });
	coloursOf(image).copy(png.data);
	return PNG.sync.write(png);
}

function coloursOf({ data }: GreyImage): Buffer {
	const colours = Buffer.alloc(4 * data.length, 255);
	for (let i = 0; i < data.length; i++) colours.fill(data[i]!, 4 * i, 4 * i + 3);
	return colours;
}

/**
 * A JPEG file that says which way the camera was held (Exif 2.32, tag 0x0112: 1 upright, 3 upside down, 6 and 8 on its
 * side), in either order of bytes.
 */
export function turnedJpeg(file: Uint8Array, turn: number, order: 'big' | 'little' = 'big'): Buffer {
	const little = order === 'little';
	const short = (value: number): number[] => (little ? [value & 255, value >> 8] : [value >> 8, value & 255]);
	const long = (value: number): number[] => (little ? [...short(value), 0, 0] : [0, 0, ...short(value)]);
	const directory = [...short(1), ...short(0x0112), ...short(3), ...long(1), ...short(turn), ...short(0), ...long(0)];
	const tiff = [...(little ? [0x49, 0x49] : [0x4d, 0x4d]), ...short(42), ...long(8), ...directory];
	const body = [0x45, 0x78, 0x69, 0x66, 0, 0, ...tiff];
	const segment = [0xff, 0xe1, (body.length + 2) >> 8, (body.length + 2) & 255, ...body];
	return Buffer.concat([file.subarray(0, 2), Buffer.from(segment), file.subarray(2)]);
}

/** The image a quarter turn on, clockwise: what a phone saves whose Exif turn is 8. */
export function turnedClockwise({ width, height, data }: GreyImage): GreyImage {
	const turned = new Uint8Array(data.length);
	for (let y = 0; y < height; y++)
		for (let x = 0; x < width; x++) turned[x * height + (height - 1 - y)] = data[y * width + x]!;
	return { width: height, height: width, data: turned };
}
