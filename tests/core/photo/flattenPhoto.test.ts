import { describe, expect, test } from 'vitest';
import { encodeCode } from '../../../src/codes/encodeCode';
import { county } from '../../../src/core/election/demo';
import { printPage } from '../../../src/core/page/printPage';
import { flattenPhoto, PHOTO_LIMITS, type Flattened } from '../../../src/core/photo/flattenPhoto';
import { randomFrom } from '../../../src/core/random';
import { printSheet, printSolidsInPlace } from '../../../src/core/sheet/printSheet';
import { signsOf } from '../../../src/core/sheet/signs';
import { shotOf, type Shot } from '../../support/camera';
import { OTHER_PAGES, otherPage, scanOf } from '../../support/otherPages';
import { context, layout, markedSheet, readFlat, shoot } from '../../support/photoCase';

/** A plain shot, small enough to be read quickly: straight from above, even light, sharp. */
const plain: Shot = {
	...shotOf(1),
	turn: 0,
	tilt: 0,
	dpi: 155,
	blur: 0.5,
	curlX: 0,
	curlY: 0,
	crease: 0,
	dimmer: 1,
	shadow: 1,
	white: 230,
	flare: 5,
	noise: 1.5
};
const reasonOf = (result: Flattened): string => ('refused' in result ? result.refused : 'read');
const LONG_MS = 600_000;
/** Photos of one sheet; the benchmark takes 20. */
const AGAIN = 3;

describe('a photo of a practice sheet', () => {
	const sheet = markedSheet(3);
	const flat = readFlat(sheet.flat, sheet.page);

	test.each([
		['straight from above', {}],
		['upside down, tilted, curled and creased', { turn: 170, tilt: 35, curlX: 10, crease: 5 }],
		['blurred, dim and shadowed', { blur: 1.4, dimmer: 0.55, shadow: 0.6, shadowAt: 0 }]
	] as const)(
		'gives the readings of the flat page: %s',
		(_, harder) => {
			const result = flattenPhoto(shoot(sheet, { ...plain, ...harder }, 80), context);
			expect(reasonOf(result)).toBe('read');
			if ('refused' in result) return;
			expect(result.code).toMatchObject({ election: county.id, style: layout.style, page: sheet.page });
			const got = readFlat(result.page, sheet.page);
			const others = flat.targets.filter(({ level }, i) => got.targets[i]!.level !== level);
			expect(others.length).toBeLessThanOrEqual(1);
			expect(flips(flat, got)).toBe(0);
		},
		LONG_MS
	);

	test(
		'taken again and again never turns dark into empty or empty into dark (VVSG 2.0, 1.1.6-K)',
		() => {
			const random = randomFrom(8);
			const shots = Array.from({ length: AGAIN }, (_, i) => ({
				...shotOf(300 + i),
				tilt: 30 * random(),
				dpi: 155
			}));
			const readings = shots.map((shot) => flattenPhoto(shoot(sheet, shot), context));
			const read = readings.flatMap((result) => ('refused' in result ? [] : [readFlat(result.page, sheet.page)]));
			expect(readings.map(reasonOf).filter((reason) => reason !== 'read')).toEqual([]);
			for (const one of read) for (const other of read) expect(flips(one, other)).toBe(0);
		},
		LONG_MS
	);

	test.each([
		['a finger over a corner', { finger: 2 }, ['corner-covered']],
		['60 degrees', { tilt: 60, dpi: 200, largest: [2400, 1800] }, ['too-steep']],
		['80 dpi', { dpi: 80 }, ['too-far']],
		['a blur of 2.6', { blur: 2.6 }, ['too-blurred', 'code-unreadable']],
		['next to no light', { white: 45, dimmer: 0.6, flare: 0 }, ['too-dark']]
	] as const)(
		'outside the limits is refused, and told the right reason: %s',
		(_, harder, reasons) => {
			expect(reasons).toContain(reasonOf(flattenPhoto(shoot(sheet, { ...plain, ...harder }), context)));
		},
		LONG_MS
	);
});

describe('a sheet that is not the one asked for', () => {
	const flat = printSheet(layout, 1, encodeCode);

	test('of another election is refused and named', () => {
		const result = flattenPhoto(flat, { ...context, election: 'another' });
		expect(result).toMatchObject({ refused: 'other-election', code: { election: county.id } });
	});

	test('of an older layout is refused', () => {
		const moved = flattenPhoto(flat, {
			...context,
			sheetOf: (code) => {
				const sheet = context.sheetOf(code);
				return sheet && { ...sheet, version: 'NEWER' };
			}
		});
		expect(reasonOf(moved)).toBe('other-layout');
		expect(reasonOf(flattenPhoto(flat, { ...context, sheetOf: () => undefined }))).toBe('other-layout');
	});

	test('with our code and corners over something else is not read', () => {
		const other = printPage(layout, 2);
		const [first] = layout.pages;
		const image = { ...other, data: other.data.slice() };
		const own = printSheet(layout, 1, encodeCode);
		// The top of page 1 with its code, on the body of page 2.
		image.data.set(own.data.subarray(0, 200 * own.width));
		printSolidsInPlace(image, signsOf(first!, [[false]]), 200 / 72);
		const result = flattenPhoto(image, context);
		expect(reasonOf(result)).toBe('not-our-sheet');
	});

	test.each(OTHER_PAGES)('that never was a sheet of ours is not read: %s', (kind) => {
		for (const seed of [1, 2])
			expect(reasonOf(flattenPhoto(scanOf(otherPage(kind, seed), seed), context))).toBe('not-our-sheet');
	});
});

test('the limits of a photo leave room beyond what is promised', () => {
	expect(PHOTO_LIMITS.leastDpi).toBeLessThan(150);
	expect(PHOTO_LIMITS.mostSlant).toBeGreaterThan(40);
	expect(PHOTO_LIMITS.mostBlurPx).toBeGreaterThan(1.5);
});

function flips(one: ReturnType<typeof readFlat>, other: ReturnType<typeof readFlat>): number {
	return one.targets.filter(({ level }, i) => {
		const levels = [level, other.targets[i]!.level];
		return levels.includes('dark') && levels.includes('empty');
	}).length;
}
