import { describe, expect, test } from 'vitest';
import type { GreyImage } from '../../../src/core/image';
import { guideOf, type Hint } from '$lib/photo/guide';
import { halve } from '../../../src/core/photo/shrink';
import { shotOf, type Shot } from '../../support/camera';
import { context, markedSheet, shoot } from '../../support/photoCase';

const sheet = markedSheet(4);

/** A frame of a phone's camera: a sheet seen from a little aside, in even light. */
const steady: Shot = {
	...shotOf(4),
	turn: 3,
	tilt: 12,
	towards: 80,
	dpi: 115,
	blur: 0.8,
	curlX: 0,
	curlY: 0,
	crease: 0,
	dimmer: 0.85,
	shadow: 1,
	white: 220,
	flare: 5,
	noise: 2
};

const hintOf = (frame: GreyImage, finer = 2): Hint => guideOf(frame, { ...context, finer }).hint;

describe('guideOf', () => {
	test('says "ready" for a steady frame, and where the sheet is in it', () => {
		const frame = shoot(sheet, steady);
		const guide = guideOf(frame, { ...context, finer: 2 });
		expect(guide.hint).toBe('ready');
		const [topLeft, topRight, bottomRight, bottomLeft] = guide.sheet!;
		expect(topLeft!.x).toBeLessThan(0.2);
		expect(topLeft!.y).toBeLessThan(0.2);
		expect(topRight!.x).toBeGreaterThan(0.8);
		expect(bottomRight!.y).toBeGreaterThan(0.8);
		expect(bottomLeft!.y).toBeGreaterThan(0.8);
	});

	test.each<[string, Partial<Shot>, Hint]>([
		['a finger lies on a corner mark', { finger: 2 }, 'corner'],
		['the camera looks from the side', { tilt: 50, dpi: 110 }, 'steep'],
		['a hard shadow lies on it', { shadow: 0.45, shadowEdge: 12, shadowAt: 60, shadowTurn: 135, dimmer: 1 }, 'shadow'],
		['the hand shakes', { blur: 2.6 }, 'blurred']
	])('says what is wrong when %s', (_, harder, hint) => {
		expect(hintOf(shoot(sheet, { ...steady, ...harder }))).toBe(hint);
	});

	test('lets light that falls off slowly pass', () => {
		expect(hintOf(shoot(sheet, { ...steady, dimmer: 0.5, dimAt: 90, white: 240 }))).toBe('ready');
	});

	test.each([3.5, 6])('says "dark" when there is %f times less light', (times) => {
		const frame = shoot(sheet, steady);
		expect(hintOf({ ...frame, data: frame.data.map((grey) => grey / times) })).toBe('dark');
	});

	test('says "far" when the photo would be too coarse, however sharp', () => {
		const frame = shoot(sheet, steady);
		expect(hintOf(frame, 1)).toBe('far');
		expect(hintOf(halve(halve(frame)))).toMatch(/^(far|none)$/);
	});

	test('finds nothing on an empty table', () => {
		expect(hintOf({ width: 640, height: 480, data: new Uint8Array(640 * 480).fill(120) })).toBe('none');
	});

	test('knows our sheet of another ballot', () => {
		const guide = guideOf(shoot(sheet, steady), { ...context, sheetOf: () => undefined, finer: 2 });
		expect(guide).toEqual({ hint: 'other' });
	});
});
