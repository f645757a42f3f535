import { describe, expect, test } from 'vitest';
import { blurred, lightest } from '$core/photo/blur';
import { blurMapOf, blurWeights, sigmaOf, TILE_PX, type BlurMap } from '$core/photo/blurMap';
import { findFocus } from '$core/photo/focus';
import { flatField, type PageMap } from '$core/photo/pageMap';
import { sheetCodeOf } from '../../../src/core/sheet/sheetCode';
import { context, layout } from '../../support/photoCase';

const print = context.sheetOf(sheetCodeOf(layout, 1))!.prints[0]!;
const white = lightest(print);

/** A page seen straight from above, `scale` pixels of the photo to one of the page along x, `stretch` times that along y. */
const straight = (scale: number, stretch = 1): PageMap => ({
	widthPx: print.width,
	heightPx: print.height,
	view: Float64Array.of(scale, 0, 0, 0, scale * stretch, 0, 0, 0),
	field: flatField(print.width, print.height)
});

const sigmasOf = ({ across, down }: BlurMap) => [[...new Set(across)].map(sigmaOf), [...new Set(down)].map(sigmaOf)];

describe('the weights of a blur', () => {
	test.each([0.3, 0.6, 1, 2.5, 4])('sum to one, and spread as far as asked for: %f', (sigma) => {
		const weights = [...blurWeights(sigma)];
		expect(weights.reduce((sum, weight, i) => sum + (i === 0 ? 1 : 2) * weight, 0)).toBeCloseTo(1, 5);
		const spread = Math.sqrt(weights.reduce((sum, weight, i) => sum + 2 * i * i * weight, 0));
		// Cut off at three sigma; and what is far narrower than a pixel spreads over none.
		if (sigma >= 0.6) expect(Math.abs(spread / sigma - 1)).toBeLessThan(0.03);
	});
});

describe('the blur of the page', () => {
	test('is that of the photo where both are as fine, and less the finer the photo is', () => {
		expect(sigmasOf(blurMapOf(straight(1), 1.5))).toEqual([[1.5], [1.5]]);
		expect(sigmasOf(blurMapOf(straight(2), 1.5))).toEqual([[0.75], [0.75]]);
	});

	test('is more along the direction that looks shorter', () => {
		const [across, down] = sigmasOf(blurMapOf(straight(1, 0.5), 1));
		expect([across, down]).toEqual([[1], [2]]);
		const turned = { ...straight(1), view: Float64Array.of(0, -0.5, 0, 1, 0, 0, 0, 0) };
		expect(sigmasOf(blurMapOf(turned, 1))).toEqual([[1], [2]]);
	});

	test('of a mirror image is that of the image', () => {
		const mirrored = { ...straight(1), view: Float64Array.of(-1, 0, print.width, 0, 0.5, 0, 0, 0) };
		expect(sigmasOf(blurMapOf(mirrored, 1))).toEqual([[1], [2]]);
	});

	test('is that of where paper that is not flat lies', () => {
		const map = { ...straight(1), view: Float64Array.of(1, 0, 0, 0, 1, 0, 0, 0.0002) };
		const { columns, rows, across, down } = blurMapOf(map, 1);
		// All of the page lies two tiles further down than its corners say.
		const shifts = map.field.shifts.map((_, i) => (i % 2 === 1 ? 2 * TILE_PX : 0));
		const strayed = blurMapOf({ ...map, field: { ...map.field, shifts } }, 1);
		const end = (rows - 2) * columns;
		expect([...strayed.across.slice(0, end)]).toEqual([...across.slice(2 * columns)]);
		expect([...strayed.down.slice(0, end)]).toEqual([...down.slice(2 * columns)]);
	});

	test('is told for every tile, and more where the page is further from the camera', () => {
		const map = { ...straight(1), view: Float64Array.of(1, 0, 0, 0, 1, 0, 0, 0.0002) };
		const { columns, rows, across } = blurMapOf(map, 1);
		expect([columns, rows]).toEqual([Math.ceil(print.width / TILE_PX), Math.ceil(print.height / TILE_PX)]);
		const column = Array.from({ length: rows }, (_, row) => across[row * columns]!);
		expect(column).toEqual([...column].sort((a, b) => a - b));
		expect(column.at(-1)).toBeGreaterThan(column[0]!);
	});
});

describe('a print that is blurred', () => {
	const soft = blurred(print, blurMapOf(straight(1), 1.5));

	test('is at every place the mean of what lies around it', () => {
		const weights = blurWeights(1.5);
		const reach = weights.length - 1;
		const at = (x: number, y: number) => print.data[y * print.width + x]!;
		let most = 0;
		// The head of the page, with text and code, and the corner mark.
		for (let y = 40; y < 240; y += 3)
			for (let x = 40; x < print.width - 40; x += 3) {
				let sum = 0;
				for (let j = -reach; j <= reach; j++)
					for (let i = -reach; i <= reach; i++) sum += weights[Math.abs(i)]! * weights[Math.abs(j)]! * at(x + i, y + j);
				most = Math.max(most, Math.abs(soft.data[y * print.width + x]! - sum));
			}
		expect(most).toBeLessThan(0.6);
	});

	test('takes as much of the light as before', () => {
		const takenBy = (data: Uint8Array) => data.reduce((sum, grey) => sum + white - grey, 0);
		expect(Math.abs(takenBy(soft.data) / takenBy(print.data) - 1)).toBeLessThan(0.005);
	});

	test('leaves paper white where nothing is printed near', () => {
		const data = new Uint8Array(256 * 256).fill(250);
		data[100 * 256 + 100] = 0;
		const map = { ...straight(1), widthPx: 256, heightPx: 256, field: flatField(256, 256) };
		const dot = blurred({ width: 256, height: 256, data }, blurMapOf(map, 2));
		const isFar = (i: number) => Math.hypot((i % 256) - 100, Math.floor(i / 256) - 100) > 9;
		expect(dot.data.filter((grey, i) => isFar(i) && grey !== 250)).toHaveLength(0);
		expect(dot.data[100 * 256 + 100]).toBeLessThan(250);
	});
});

describe('the focus of a picture', () => {
	test.each([0.6, 1, 1.5, 2, 2.7])('is found to be the blur that it was given: %f', (sigma) => {
		const { sigmaPx, sigmaInPhoto, contrast } = findFocus(blurred(print, blurMapOf(straight(1), sigma)), print, white);
		expect(Math.abs(sigmaPx - sigma)).toBeLessThan(0.1);
		expect(sigmaInPhoto).toBe(sigmaPx);
		expect(Math.abs(contrast - 1)).toBeLessThan(0.04);
	});

	test('is told in pixels of the photo too', () => {
		const { sigmaPx, sigmaInPhoto } = findFocus(
			blurred(print, blurMapOf(straight(1), 1.5)),
			print,
			white,
			straight(1.4)
		);
		expect(sigmaInPhoto / sigmaPx).toBeCloseTo(1.4, 6);
	});

	test.each([
		[1, 0],
		[0.6, 0],
		[0.8, 40],
		[0.4, 90]
	])('tells contrast and black in %f of the light with a flare of %f', (light, flare) => {
		const soft = blurred(print, blurMapOf(straight(1), 1.2));
		const picture = { ...soft, data: soft.data.map((grey) => flare + light * grey) };
		const { sigmaPx, contrast, black } = findFocus(picture, print, white);
		expect(Math.abs(sigmaPx - 1.2)).toBeLessThan(0.1);
		expect(Math.abs(contrast - (light * white) / (flare + light * white))).toBeLessThan(0.02);
		expect(Math.abs(black.grey + black.ofLight * (flare + light * white) - flare)).toBeLessThan(3);
	});

	test('tells black as a share of the light where that changes over the page', () => {
		const soft = blurred(print, blurMapOf(straight(1), 1.2));
		const lightAt = (y: number) => 110 + (130 * y) / print.height;
		const share = 0.12;
		const picture = {
			...soft,
			data: soft.data.map(
				(grey, at) => lightAt(Math.floor(at / print.width)) * (share + ((1 - share) * grey) / white) + 0.5
			)
		};
		const { black } = findFocus(picture, print, white);
		// The line would rather be level, so at its ends it falls a little short.
		for (const light of [130, 180, 230])
			expect(Math.abs(black.grey + black.ofLight * light - share * light)).toBeLessThan(5);
		expect(Math.abs(black.ofLight - share)).toBeLessThan(0.04);
	});

	test('tells black though a part of the page is scribbled over', () => {
		const soft = blurred(print, blurMapOf(straight(1), 1.2));
		const isInk = (x: number, y: number) => y > 1000 && (x + y) % 24 < 10;
		const picture = {
			...soft,
			data: soft.data.map((grey, at) =>
				isInk(at % print.width, Math.floor(at / print.width)) ? 30 : 50 + (180 * grey) / white
			)
		};
		const { black } = findFocus(picture, print, white);
		expect(Math.abs(black.grey + black.ofLight * 230 - 50)).toBeLessThan(5);
	});

	test('of a picture that shows nothing is none', () => {
		const grey = { ...print, data: new Uint8Array(print.data.length).fill(120) };
		expect(findFocus(grey, print, white)).toMatchObject({ sigmaPx: Infinity, contrast: 0 });
	});
});
