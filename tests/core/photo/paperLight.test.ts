import { describe, expect, test } from 'vitest';
import type { GreyImage } from '$core/image';
import { lightsAlong, paperLight, SQUARE_PX } from '$core/photo/paperLight';

const [width, height] = [900, 900];
const PAPER = 200;
const blank: GreyImage = { width, height, data: new Uint8Array(width * height).fill(255) };

/** Paper that is as light as `grey` says at each place. */
function paper(grey: (x: number, y: number) => number): GreyImage {
	const data = new Uint8Array(width * height);
	for (let y = 0; y < height; y++) for (let x = 0; x < width; x++) data[y * width + x] = grey(x, y);
	return { width, height, data };
}

/** The light of bare paper that is found at a place. */
function lightAt(picture: GreyImage, x: number, y: number): number {
	const light = paperLight(picture, blank, 255);
	const knots = new Float32Array(light.columns + 2);
	lightsAlong(light, y, knots);
	const span = (x + 0.5) / SQUARE_PX + 0.5;
	const before = Math.floor(span);
	return knots[before]! + (span - before) * (knots[before + 1]! - knots[before]!);
}

const isIn = (x: number, y: number, sidePx: number): boolean =>
	Math.abs(x - width / 2) <= sidePx / 2 && Math.abs(y - height / 2) <= sidePx / 2;

describe('the light of the paper', () => {
	test.each([20, 50, 90, 140])('is that of the paper around under ink %i pixels wide', (sidePx) => {
		const inked = paper((x, y) => (isIn(x, y, sidePx) ? 0.2 * PAPER : PAPER));
		expect(lightAt(inked, width / 2, height / 2)).toBeGreaterThan(0.97 * PAPER);
	});

	test('is that of the paper around under a filled target with a ring around it, and in the gap between them', () => {
		const ringed = paper((x, y) => {
			const [dx, dy] = [(x - width / 2) / 30, (y - height / 2) / 17];
			const fromMiddle = Math.hypot(dx, dy);
			return fromMiddle < 1 || (fromMiddle > 1.15 && fromMiddle < 1.9) ? 0.12 * PAPER : PAPER;
		});
		for (const dx of [0, 20, 32, 40]) expect(lightAt(ringed, width / 2 + dx, height / 2)).toBeGreaterThan(0.97 * PAPER);
	});

	test.each([
		['half as light', 0.5, 300],
		['a little darker and narrow', 0.8, 90]
	])('follows a shadow that is %s', (_, left, sidePx) => {
		const shadowed = paper((x, y) => (isIn(x, y, sidePx) ? left * PAPER : PAPER));
		expect(lightAt(shadowed, width / 2, height / 2)).toBeCloseTo(left * PAPER, 0);
	});

	test('follows a slope of the light', () => {
		const sloping = paper((x) => 100 + x / 10);
		for (const x of [100, 450, 800]) expect(Math.abs(lightAt(sloping, x, 450) - (100 + x / 10))).toBeLessThan(3);
	});
});
