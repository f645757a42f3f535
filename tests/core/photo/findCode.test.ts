import { describe, expect, test } from 'vitest';
import type { Point } from '$core/geometry';
import { PX_PER_PT, type GreyImage } from '$core/image';
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

	test('is straightened upright into the middle of a square, with as much around it on every side', () => {
		const squares: FoundCode[] = [];
		const spied: DecodeCode = (image) => {
			const found = poorDecode(image);
			if (found?.text !== undefined) squares.push(found);
			return found;
		};
		findCode(photo, spied, levels);
		const [{ corners }] = squares as [FoundCode];
		const [xs, ys] = [corners.map(({ x }) => x), corners.map(({ y }) => y)];
		const side = Math.max(...xs) - Math.min(...xs);
		const middle = { x: 210, y: 210 };
		// Top left, top right, bottom right, bottom left; the tilt leaves a little perspective.
		[
			[-1, -1],
			[1, -1],
			[1, 1],
			[-1, 1]
		].forEach(([right, down], i) => {
			expect(Math.abs(xs[i]! - middle.x - (right! * side) / 2)).toBeLessThan(0.06 * side);
			expect(Math.abs(ys[i]! - middle.y - (down! * side) / 2)).toBeLessThan(0.06 * side);
		});
	});

	test('that is too blurred to be read, straightened or not, is read when it is sharpened', () => {
		const own: Shot = { ...shot, blur: 3.6 };
		const blurred = shoot(sheet, own);
		expect([decode(blurred) !== undefined, decode(blurred)?.text]).toEqual([true, undefined]);
		const unread: (string | undefined)[] = [];
		const found = findCode(blurred, (one) => {
			const again = decode(one);
			if (one.width === one.height) unread.push(again?.text);
			return again;
		})!;
		expect(found.text).toBe(text);
		expect(unread[0]).toBeUndefined();
		expect(offModules(found, own)).toBeLessThan(1);
	});

	test('that is not even seen in a small and blurred photo is found when all of it is sharpened, in its place', () => {
		const own: Shot = { ...shot, dpi: 70, blur: 2.4 };
		const small = shoot(sheet, own);
		expect(decode(small)).toBeUndefined();
		expect(findCode(small, decode)).toBeUndefined();
		const found = findCode(small, decode, pyramidOf(small, 200))!;
		expect(found.text).toBe(text);
		expect(offModules(found, own)).toBeLessThan(1);
	});

	/** Sees nothing in the photo itself, three patterns in what is sharpened, and in what is straightened what it is told. */
	const doubtful =
		(straight: (image: GreyImage) => FoundCode | undefined): DecodeCode =>
		(image) => {
			if (image.width === image.height) return straight(image);
			if (image.width === photo.width) return undefined;
			const found = decode(image);
			return found && { ...found, text: undefined };
		};
	const unread = (found: FoundCode | undefined) => found && { ...found, text: undefined };

	test('that is seen only in what is sharpened is no code unless it is seen again when straightened, in its place', () => {
		const again = findCode(
			photo,
			doubtful((image) => unread(decode(image))),
			levels
		)!;
		expect(again.text).toBeUndefined();
		expect(offModules(again, shot)).toBeLessThan(1);
		expect(
			findCode(
				photo,
				doubtful(() => undefined),
				levels
			)
		).toBeUndefined();
		const elsewhere = doubtful((image) => {
			const found = unread(decode(image));
			const aside = ({ x, y }: Point) => ({ x: x + 40, y });
			return found && { ...found, finders: found.finders.map(aside) };
		});
		expect(findCode(photo, elsewhere, levels)).toBeUndefined();
	});

	test('is not seen where there is none: on an empty table, nor on a printed page without one', () => {
		const empty = { width: 450, height: 350, data: new Uint8Array(450 * 350).fill(200) };
		expect(findCode(empty, decode)).toBeUndefined();
		const page = context.sheetOf(sheetCodeOf(layout, sheet.page))!.prints[0]!;
		expect(findCode(page, decode, pyramidOf(page, 200))?.text).toBe(text);
		const [xs, ys] = [codeCorners().map(({ x }) => x * PX_PER_PT), codeCorners().map(({ y }) => y * PX_PER_PT)];
		const isCode = (x: number, y: number) =>
			x > Math.min(...xs) - 2 && x < Math.max(...xs) + 2 && y > Math.min(...ys) - 2 && y < Math.max(...ys) + 2;
		const bare = {
			...page,
			data: page.data.map((grey, at) => (isCode(at % page.width, Math.floor(at / page.width)) ? 250 : grey))
		};
		expect(findCode(bare, decode, pyramidOf(bare, 200))).toBeUndefined();
	}, 120_000);

	test('is looked for once in a frame of a camera, and more carefully in a photo', () => {
		const longer: number[] = [];
		const blind: DecodeCode = ({ width, height }) => void longer.push(Math.max(width, height));
		expect(findCode(photo, blind)).toBeUndefined();
		expect(longer).toEqual([photo.height]);
		expect(findCode(photo, blind, levels)).toBeUndefined();
		expect(longer).toEqual([photo.height, photo.height, 1400, 2200]);
	});
});
