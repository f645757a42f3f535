import jpeg from 'jpeg-js';
import { writeFileSync } from 'node:fs';
import { PNG } from 'pngjs';
import type { GreyImage } from '../../src/core/image';
import { fileWith } from './run';

/** Saves a grey picture under a name that ends in .png or .jpg and returns the path. */
export function pictureFile(name: string, { width, height, data }: GreyImage): string {
	const colours = Buffer.alloc(4 * data.length, 255);
	data.forEach((grey, i) => colours.fill(grey, 4 * i, 4 * i + 3));
	const path = fileWith(name, '');
	const png = new PNG({ width, height });
	colours.copy(png.data);
	writeFileSync(
		path,
		name.endsWith('.png') ? PNG.sync.write(png) : jpeg.encode({ width, height, data: colours }, 90).data
	);
	return path;
}
