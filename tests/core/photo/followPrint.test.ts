import { describe, expect, test } from 'vitest';
import type { Point } from '$core/geometry';
import { PX_PER_PT, type GreyImage } from '$core/image';
import { followPrint, viewNear, type Pairs } from '$core/photo/followPrint';
import { homographyOf, project } from '$core/photo/homography';
import { pyramidOf } from '$core/photo/shrink';
import { sheetCodeOf } from '../../../src/core/sheet/sheetCode';
import { lens, shotOf, type Shot } from '../../support/camera';
import { context, layout, markedSheet, shoot } from '../../support/photoCase';

const LONG_MS = 120_000;

const sheet = markedSheet(4);
const { prints } = context.sheetOf(sheetCodeOf(layout, sheet.page))!;
const print = prints[0]!;

/** The head of the page, in pixels: its two corner marks and nine places of its code. */
const HEAD: readonly Point[] = [
	[27, 27],
	[585, 27],
	...[18, 42, 66].flatMap((y) => [522, 546, 570].map((x) => [x, y]))
].map(([x, y]) => ({ x: x! * PX_PER_PT, y: y! * PX_PER_PT }));

const HALF_PX = print.height / 2;

type Truth = (x: number, y: number) => Point;

const truthOf = (shot: Shot): Truth => {
	const { project: inPhoto } = lens(shot);
	return (x, y) => {
		const [px, py] = inPhoto(x / PX_PER_PT, y / PX_PER_PT);
		return { x: px, y: py };
	};
};

/** A scan: every place lies where it was printed. */
const straight: Truth = (x, y) => ({ x, y });

/** What is found from the head down, and how far each pair is off the truth, in pixels of the page. */
function followed(photo: GreyImage, truth: Truth): { readonly found: Pairs; readonly offPx: readonly number[] } {
	const head = { from: HEAD, to: HEAD.map(({ x, y }) => truth(x, y)) };
	const pairs = followPrint(pyramidOf(photo, 200), prints, head);
	expect(pairs.from.slice(0, HEAD.length)).toEqual(HEAD);
	const found = { from: pairs.from.slice(HEAD.length), to: pairs.to.slice(HEAD.length) };
	return { found, offPx: found.from.map((place, i) => offAt(truth, place, found.to[i]!)) };
}

function offAt(truth: Truth, { x, y }: Point, taken: Point): number {
	const [at, beside] = [truth(x, y), truth(x + 1, y)];
	return Math.hypot(taken.x - at.x, taken.y - at.y) / Math.hypot(beside.x - at.x, beside.y - at.y);
}

const quantile = (values: readonly number[], share: number): number =>
	[...values].sort((a, b) => a - b)[Math.floor(share * (values.length - 1))]!;

/** A page image with some of its pixels changed. */
function changed(image: GreyImage, greyAt: (x: number, y: number) => number): GreyImage {
	const { width } = image;
	return { ...image, data: image.data.map((_, at) => greyAt(at % width, Math.floor(at / width))) };
}

describe('the print followed down from the head of the page', () => {
	const still = { turn: 8, dpi: 110, blur: 0.6, white: 220, flare: 5, noise: 1.5, shadow: 1, dimmer: 0.9 };

	test.each([
		['flat and tilted', { curlX: 0, curlY: 0, crease: 0, tilt: 40 }, { headPx: 0, middlePx: 0.5, mostPx: 1.5 }],
		['curled both ways', { curlX: 12, curlY: -10, crease: 0, tilt: 20 }, { headPx: 20, middlePx: 1, mostPx: 3 }],
		['folded in three', { curlX: 0, curlY: 0, crease: 8, tilt: 35 }, { headPx: 60, middlePx: 1, mostPx: 5 }]
	])(
		'is found to the foot of a sheet that is %s',
		(_, bent, { headPx, middlePx, mostPx }) => {
			const shot = { ...shotOf(64), ...still, ...bent };
			const truth = truthOf(shot);
			const { found, offPx } = followed(shoot(sheet, shot), truth);
			expect(found.from.filter(({ y }) => y > HALF_PX).length).toBeGreaterThan(50);
			expect(Math.max(...found.from.map(({ y }) => y))).toBeGreaterThan(720 * PX_PER_PT);
			expect(quantile(offPx, 0.5)).toBeLessThan(middlePx);
			expect(quantile(offPx, 0.9)).toBeLessThan(mostPx);
			// What it is for: the marks in the lower corners, of which the head alone knows little where paper bends.
			const head = homographyOf(
				HEAD,
				HEAD.map(({ x, y }) => truth(x, y))
			)!;
			const foot = { x: print.width / 2, y: print.height - 60 };
			expect(offAt(truth, foot, project(head, foot.x, foot.y))).toBeGreaterThanOrEqual(headPx);
			expect(offAt(truth, foot, project(viewNear(found, foot.y)!, foot.x, foot.y))).toBeLessThan(30);
		},
		LONG_MS
	);

	test('leaves out blocks that are found further off than the rest of their band', () => {
		// A part of the page lies 40 pixels beside its place: further than paper strays within a band.
		const [left, right, top, bottom] = [150, 450, 400, 1000];
		const isIn = (x: number, y: number) => x >= left && x < right && y >= top && y < bottom;
		const moved = changed(print, (x, y) => print.data[y * print.width + (isIn(x, y) ? x - 40 : x)]!);
		const inside = ({ x, y }: Point) => isIn(x - 60, y - 60) && isIn(x + 60, y + 60);
		expect(followed(print, straight).found.from.filter(inside).length).toBeGreaterThan(5);
		const { found, offPx } = followed(moved, straight);
		expect(found.from.filter(inside)).toEqual([]);
		expect(found.from.length).toBeGreaterThan(150);
		expect(Math.max(...offPx)).toBeLessThan(26);
	});

	test.each([
		['blank', (x: number, y: number) => (y < HALF_PX ? print.data[y * print.width + x]! : 250)],
		['covered by something dark', (x: number, y: number) => (y < HALF_PX ? print.data[y * print.width + x]! : 60)]
	])('is found on the upper half alone where the lower is %s', (_, greyAt) => {
		const { found, offPx } = followed(changed(print, greyAt), straight);
		expect(found.from.length).toBeGreaterThan(50);
		expect(Math.max(...found.from.map(({ y }) => y))).toBeLessThan(HALF_PX + 48);
		expect(quantile(offPx, 0.95)).toBeLessThan(1);
	});

	test('needs the print at a quarter of its size', () => {
		expect(() => followPrint([print], [print], { from: HEAD, to: HEAD })).toThrow('expected the print at level 2');
	});
});

describe('the view near a height of the page', () => {
	test('is that of the places there, more than of others', () => {
		// A curled page: one view for all of it would shift every place by 13 pixels.
		const shiftAt = (y: number) => 40 * ((y - HALF_PX) / HALF_PX) ** 2;
		const rows = Array.from({ length: 11 }, (_, i) => 100 + 200 * i);
		const from = [100, 600, 1100, 1600].flatMap((x) => rows.map((y) => ({ x, y })));
		const to = from.map(({ x, y }) => ({ x: x + shiftAt(y), y }));
		for (const y of [300, 1900]) {
			const { x } = project(viewNear({ from, to }, y)!, 850, y);
			expect(Math.abs(x - 850 - shiftAt(y))).toBeLessThan(1.5);
		}
	});

	test('is none where too few places are known', () => {
		expect(viewNear({ from: HEAD.slice(0, 3), to: HEAD.slice(0, 3) }, 500)).toBeUndefined();
	});
});
