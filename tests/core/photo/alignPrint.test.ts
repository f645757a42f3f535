import { expect, test } from 'vitest';
import { PX_PER_PT } from '$core/image';
import { alignPrint } from '$core/photo/alignPrint';
import { findCode } from '$core/photo/findCode';
import { findSigns } from '$core/photo/findSigns';
import { project } from '$core/photo/homography';
import { shiftAt } from '$core/photo/pageMap';
import { pyramidOf } from '$core/photo/shrink';
import { parseSheetCode } from '$core/sheet/sheetCode';
import { lens, shotOf, type Shot } from '../../support/camera';
import { context, markedSheet, shoot } from '../../support/photoCase';

const LONG_MS = 120_000;

/** Places all over the sheet, in points. */
const ROWS = Array.from({ length: 31 }, (_, i) => 36 + 24 * i);
const COLUMNS = Array.from({ length: 27 }, (_, i) => 40 + 20 * i);

/** In each row of places, how far from the truth the page is taken to lie, on average, in pixels at 200 dpi. */
function errorsOf(shot: Shot): readonly number[] {
	const sheet = markedSheet(4);
	const photo = shoot(sheet, shot);
	const levels = pyramidOf(photo, 200);
	const found = findCode(photo, context.decode, levels)!;
	const { prints } = context.sheetOf(parseSheetCode(found.text!)!)!;
	const signs = findSigns(levels, prints, found.corners);
	if (!('signs' in signs)) throw new Error('expected the corner marks of a sheet that is all in the picture');
	const { map } = alignPrint(levels, prints, signs.signs.view);
	const truth = lens(shot).project;
	return ROWS.map((y) => {
		const off = COLUMNS.map((x) => {
			const [px, py] = [x * PX_PER_PT, y * PX_PER_PT];
			const [dx, dy] = shiftAt(map.field, px, py);
			const taken = project(map.view, px + dx, py + dy);
			const beside = project(map.view, px + dx + 1, py + dy);
			const [rx, ry] = truth(x, y);
			return Math.hypot(taken.x - rx, taken.y - ry) / Math.hypot(beside.x - taken.x, beside.y - taken.y);
		});
		return off.reduce((sum, one) => sum + one, 0) / off.length;
	});
}

const still = { turn: 8, dpi: 160, blur: 0.6, white: 220, flare: 5, noise: 1.5, shadow: 1, dimmer: 0.9 };

test.each([
	['flat', { curlX: 0, curlY: 0, crease: 0, tilt: 20 }],
	['curled both ways', { curlX: 12, curlY: -10, crease: 0, tilt: 20 }],
	['folded in three and opened again', { curlX: 0, curlY: 0, crease: 8, tilt: 35 }]
])(
	'a sheet that is %s is laid on its print to within 0.7 pixels in every row, its lower edge too',
	(_, bent) => {
		const errors = errorsOf({ ...shotOf(64), ...still, ...bent });
		expect(Math.max(...errors)).toBeLessThan(0.7);
		expect(errors.reduce((sum, one) => sum + one, 0) / errors.length).toBeLessThan(0.3);
	},
	LONG_MS
);
