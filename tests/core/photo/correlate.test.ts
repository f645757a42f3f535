import { describe, expect, test } from 'vitest';
import type { GreyImage } from '$core/image';
import { findBlock, type Match, type Search } from '$core/photo/correlate';
import { flatField, rectify } from '$core/photo/pageMap';
import { pyramidOf } from '$core/photo/shrink';
import { sheetCodeOf } from '../../../src/core/sheet/sheetCode';
import { context, layout } from '../../support/photoCase';

/** The printed page at 100 dpi, where most passes look for their blocks. */
const print = context.sheetOf(sheetCodeOf(layout, 1))!.prints[1]!;
const SIDE = 28;
const LEAST_VARIANCE = 150;

/** The page so many pixels further right and down. */
function moved(by: readonly [number, number], greyAt = (grey: number) => grey): GreyImage {
	const { width: widthPx, height: heightPx } = print;
	const view = Float64Array.of(1, 0, -by[0], 0, 1, -by[1], 0, 0);
	const image = rectify(pyramidOf(print, 400), { widthPx, heightPx, view, field: flatField(widthPx, heightPx) }, 1);
	return { ...image, data: image.data.map(greyAt) };
}

/** What is found of every second block that lies well inside the page. */
function matchesIn(picture: GreyImage, reach: number, search: Search): readonly (Match | undefined)[] {
	const found: (Match | undefined)[] = [];
	for (let y = SIDE; y + 2 * SIDE <= print.height; y += 2 * SIDE)
		for (let x = SIDE; x + 2 * SIDE <= print.width; x += 2 * SIDE)
			found.push(findBlock(print, picture, x, y, SIDE, 0, 0, reach, LEAST_VARIANCE, search));
	return found;
}

describe('a block of the print', () => {
	test.each([
		[0, 0],
		[3, -2],
		[0.25, 0.5],
		[-1.6, 2.3]
	])('is found again where the picture was moved by %f and %f pixels', (dx, dy) => {
		const matches = matchesIn(moved([dx, dy]), 5, 'everywhere').filter((match) => match !== undefined);
		expect(matches.length).toBeGreaterThan(40);
		// Of blocks that have lines along both ways: along a line anything matches.
		const sure = matches.filter(({ bendX, bendY, likeness }) => Math.min(bendX, bendY) > 0.1 && likeness > 0.9);
		expect(sure.length).toBeGreaterThan(20);
		const offPx = sure.map((match) => Math.hypot(match.dx - dx, match.dy - dy)).sort((a, b) => a - b);
		expect(offPx[offPx.length >> 1]).toBeLessThan(0.15);
		expect(offPx[Math.floor(0.9 * offPx.length)]).toBeLessThan(0.3);
	});

	test('is as like in less light and with flare', () => {
		const bright = matchesIn(moved([1, 1]), 3, 'everywhere');
		const dim = matchesIn(
			moved([1, 1], (grey) => 30 + grey / 2),
			3,
			'everywhere'
		);
		bright.forEach((match, i) => {
			expect(dim[i] === undefined).toBe(match === undefined);
			if (match) expect(Math.abs(match.likeness - dim[i]!.likeness)).toBeLessThan(0.01);
		});
	});

	test('is found in the same place whether every place is looked at or every second', () => {
		const picture = moved([4.3, -3.6]);
		const [all, some] = [matchesIn(picture, 8, 'everywhere'), matchesIn(picture, 8, 'widely')];
		const both = all.flatMap((match, i) => (match && some[i] ? [[match, some[i]] as const] : []));
		expect(both.length).toBe(all.filter((match) => match !== undefined).length);
		for (const [match, other] of both) expect(other.likeness).toBeLessThanOrEqual(match.likeness);
		const same = both.filter(([match, other]) => match.dx === other.dx && match.dy === other.dy);
		expect(same.length / both.length).toBeGreaterThan(0.95);
	});

	test('is found uphill where it is all but in place', () => {
		const picture = moved([0.7, -0.6]);
		const [all, near] = [matchesIn(picture, 3, 'everywhere'), matchesIn(picture, 3, 'uphill')];
		const pairs = all.flatMap((match, i) => (match && match.likeness > 0.9 ? [[match, near[i]!] as const] : []));
		const same = pairs.filter(([match, other]) => match.dx === other.dx && match.dy === other.dy);
		expect(pairs.length).toBeGreaterThan(20);
		expect(same.length / pairs.length).toBeGreaterThan(0.9);
	});

	test('is not looked for where nothing is printed, nor outside the print', () => {
		const blank = { ...print, data: new Uint8Array(print.data.length).fill(250) };
		expect(findBlock(blank, print, 100, 100, SIDE, 0, 0, 3, LEAST_VARIANCE)).toBeUndefined();
		for (const [x, y] of [
			[-1, 50],
			[50, -1],
			[print.width - SIDE + 1, 50],
			[50, print.height - SIDE + 1]
		] as const)
			expect(findBlock(print, print, x, y, SIDE, 0, 0, 3, 0)).toBeUndefined();
	});

	test('is not found where the search lies outside the picture', () => {
		expect(findBlock(print, print, 60, 60, SIDE, -300, 0, 3, 0)).toBeUndefined();
	});
});
