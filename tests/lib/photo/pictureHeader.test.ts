import jpeg from 'jpeg-js';
import { PNG } from 'pngjs';
import { describe, expect, test } from 'vitest';
import { readHeader } from '$lib/photo/pictureHeader';
import { turnedJpeg } from '../../support/photoFiles';

const text = (value: string): number[] => [...Buffer.from(value, 'latin1')];
const box = (...brands: string[]): Uint8Array =>
	Uint8Array.from(
		[0, 0, 0, 8 + 8 + 4 * (brands.length - 1), ...text('ftyp'), ...text(brands[0]!), 0, 0, 0, 0].concat(
			brands.slice(1).flatMap(text)
		)
	);
const picture = (width: number, height: number): { width: number; height: number; data: Uint8Array } => ({
	width,
	height,
	data: new Uint8Array(4 * width * height).fill(200)
});

describe('readHeader', () => {
	test('knows a JPEG and its size', () => {
		expect(readHeader(jpeg.encode(picture(37, 21), 80).data)).toEqual({
			kind: 'jpeg',
			size: { width: 37, height: 21 }
		});
	});

	test.each([
		[1, 37, 21],
		[3, 37, 21],
		[6, 21, 37],
		[8, 21, 37]
	])('gives the size of a JPEG as it is shown where the camera was held as %i', (turn, width, height) => {
		const file = turnedJpeg(jpeg.encode(picture(37, 21), 80).data, turn);
		expect(readHeader(file)).toEqual({ kind: 'jpeg', size: { width, height } });
		// The other byte order.
		expect(readHeader(turnedJpeg(jpeg.encode(picture(37, 21), 80).data, turn, 'little'))).toEqual({
			kind: 'jpeg',
			size: { width, height }
		});
	});

	test('knows a PNG and its size', () => {
		const png = new PNG({ width: 301, height: 17 });
		expect(readHeader(PNG.sync.write(png))).toEqual({ kind: 'png', size: { width: 301, height: 17 } });
	});

	test.each([
		['VP8X', [10, 0, 0, 0, 0, 0, 0, 0, 0x2b, 1, 0, 0xc7, 0, 0], 300, 200],
		['VP8 ', [10, 0, 0, 0, 0, 0, 0, 0x9d, 1, 0x2a, 0x2c, 1, 0xc8, 0], 300, 200],
		['VP8L', [10, 0, 0, 0, 0x2f, 0x2b, 0xc1, 0x31, 0, 0, 0, 0, 0, 0], 300, 200]
	])('knows the size of a WebP of the form %s', (form, rest, width, height) => {
		const file = Uint8Array.from([...text('RIFF'), 99, 0, 0, 0, ...text('WEBP'), ...text(form), ...rest]);
		expect(readHeader(file)).toEqual({ kind: 'webp', size: { width, height } });
	});

	test.each(['heic', 'heix', 'mif1', 'msf1', 'hevc'])('knows HEIC by its brand: %s', (brand) => {
		expect(readHeader(box(brand, 'miaf')).kind).toBe('heic');
		expect(readHeader(box('miaf', brand)).kind).toBe('heic');
	});

	test('takes an AVIF, a film and a text for no HEIC', () => {
		for (const other of [box('avif', 'mif1', 'miaf'), box('mp42', 'isom'), Uint8Array.from(text('hello, heic'))])
			expect(readHeader(other)).toEqual({ kind: 'other', size: undefined });
		expect(readHeader(Uint8Array.from(text('%PDF-1.7'))).kind).toBe('pdf');
	});

	test('says no size where a file ends too early, and does not throw', () => {
		const whole = turnedJpeg(jpeg.encode(picture(37, 21), 80).data, 6);
		const png = PNG.sync.write(new PNG({ width: 3, height: 3 }));
		for (let length = 0; length < 60; length++) expect(readHeader(whole.subarray(0, length)).size).toBeUndefined();
		for (let length = 0; length < 24; length++) expect(readHeader(png.subarray(0, length)).size).toBeUndefined();
		expect(readHeader(png.subarray(0, 24)).size).toEqual({ width: 3, height: 3 });
	});
});
