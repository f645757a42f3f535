import { describe, expect, test } from 'vitest';
import type { Point } from '$core/geometry';
import { findCode } from '$core/photo/findCode';
import type { DecodeCode, FoundCode } from '$core/photo/foundCode';
import { pyramidOf } from '$core/photo/shrink';
import { sheetCodeOf, writeSheetCode } from '../../../src/core/sheet/sheetCode';
import { codeCorners } from '../../../src/core/sheet/signs';
import { lens, shotOf, type Shot } from '../../support/camera';
import { context, layout, markedSheet, shoot } from '../../support/photoCase';

const { decode } = context;
const sheet = markedSheet(4);
const text = writeSheetCode(sheetCodeOf(layout, sheet.page));
const shot: Shot = { ...shotOf(64), curlX: 0, curlY: 0, crease: 0, turn: 25, tilt: 30, dpi: 90, blur: 0.6, shadow: 1 };
const photo = shoot(sheet, shot);
const levels = pyramidOf(photo, 200);

/** How far the corners of a code are from where the camera put them, at most, in modules. */
function offModules({ corners, modulePx }: FoundCode, own: Shot): number {
	const { project } = lens(own);
	const truth = codeCorners().map(({ x, y }) => project(x, y));
	return Math.max(...corners.map(({ x, y }, i) => Math.hypot(x - truth[i]![0], y - truth[i]![1]) / modulePx));
}

/** Sees codes and reads only those that were drawn again: a photo too blurred or too small to be read as it is. */
const poorDecode: DecodeCode = (image) => {
	const found = decode(image);
	return found && image.width !== image.height ? { ...found, text: undefined } : found;
};

describe('the code of a sheet in a photo', () => {
	test('is read, and its corners are where the camera put them', () => {
		const found = findCode(photo, decode, levels)!;
		expect(found.text).toBe(text);
		expect(offModules(found, shot)).toBeLessThan(1);
	});

	test('that is seen and not read is straightened and read, and told in pixels of the photo', () => {
		const found = findCode(photo, poorDecode, levels)!;
		expect(found.text).toBe(text);
		expect(offModules(found, shot)).toBeLessThan(1);
	});

	test('is straightened whichever of its finder patterns the decoder names first', () => {
		for (const first of [0, 1, 2]) {
			const turned: DecodeCode = (image) => {
				const found = poorDecode(image);
				if (found?.text !== undefined || !found) return found;
				const finders = [0, 1, 2].map((i) => found.finders[(i + first) % 3] as Point);
				return { ...found, finders };
			};
			expect(findCode(photo, turned, levels)?.text).toBe(text);
		}
	});

	test('that cannot be read is at least seen, in its place', () => {
		const found = findCode(photo, (image) => {
			const seen = decode(image);
			return seen && { ...seen, text: undefined };
		})!;
		expect(found.text).toBeUndefined();
		expect(offModules(found, shot)).toBeLessThan(1);
	});

	test('is told in pixels of a large photo, though it was found in half of it', () => {
		const sizes: number[] = [];
		const large: Shot = { ...shot, dpi: 130 };
		const image = shoot(sheet, large);
		expect(image.width * image.height).toBeGreaterThan(5e6);
		const found = findCode(image, (one) => (sizes.push(one.width), decode(one)), pyramidOf(image, 200))!;
		expect(found.text).toBe(text);
		expect(sizes).toEqual([image.width >> 1]);
		expect(offModules(found, large)).toBeLessThan(1);
	}, 120_000);

	test('is not seen where there is none', () => {
		const empty = { width: 450, height: 350, data: new Uint8Array(450 * 350).fill(200) };
		expect(findCode(empty, decode)).toBeUndefined();
	});
});
