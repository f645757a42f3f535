import { describe, expect, test } from 'vitest';
import type { GreyImage } from '$core/image';
import { greyOver } from '$core/photo/greyOver';
import { halve, pyramidOf } from '$core/photo/shrink';
import { randomFrom } from '../../../src/core/random';

function noise(width: number, height: number): GreyImage {
	const random = randomFrom(width + height);
	return { width, height, data: Uint8Array.from({ length: width * height }, () => Math.floor(256 * random())) };
}

describe('a picture made smaller', () => {
	test.each([
		[40, 30],
		[41, 31],
		[2, 3],
		[1, 9]
	])('has for every pixel the mean of four, and drops an odd last row or column: %i by %i', (width, height) => {
		const image = noise(width, height);
		const half = halve(image);
		expect([half.width, half.height]).toEqual([Math.floor(width / 2), Math.floor(height / 2)]);
		const at = (x: number, y: number) => image.data[y * width + x]!;
		half.data.forEach((grey, i) => {
			const [x, y] = [2 * (i % half.width), 2 * Math.floor(i / half.width)];
			const mean = (at(x, y) + at(x + 1, y) + at(x, y + 1) + at(x + 1, y + 1)) / 4;
			expect(Math.abs(grey - mean)).toBeLessThanOrEqual(0.5);
		});
	});

	test('is halved until its shorter side is less than twice what is asked for', () => {
		const levels = pyramidOf(noise(333, 130), 20);
		expect(levels.map(({ width, height }) => [width, height])).toEqual([
			[333, 130],
			[166, 65],
			[83, 32]
		]);
		expect(pyramidOf(noise(30, 39), 20)).toHaveLength(1);
	});
});

describe('the grey that a share of a picture stays under', () => {
	test('has that share of the pixels at or below it', () => {
		const image = noise(300, 200);
		for (const share of [0.1, 0.5, 0.6, 0.95]) {
			const grey = greyOver(image, share);
			const below = image.data.filter((one) => one <= grey).length / image.data.length;
			expect(Math.abs(below - share)).toBeLessThan(0.02);
		}
	});

	test('is that of the paper where most is paper, whatever is printed', () => {
		const data = new Uint8Array(10_000).fill(230);
		data.fill(20, 0, 3000);
		expect(greyOver({ width: 100, height: 100, data }, 0.6)).toBe(230);
	});
});
