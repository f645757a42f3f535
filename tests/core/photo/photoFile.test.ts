import { expect, test } from 'vitest';
import { lumaInto } from '$core/photo/photoFile';
import { randomFrom } from '../../../src/core/random';

const greyOf = (...colour: readonly number[]): number => {
	const grey = new Uint8Array(1);
	lumaInto(grey, 0, Uint8Array.from(colour));
	return grey[0]!;
};

test('opaque colours become their Rec. 601 luma, rounded', () => {
	const random = randomFrom(1);
	const part = () => Math.floor(256 * random());
	for (let i = 0; i < 200; i++) {
		const [red, green, blue] = [part(), part(), part()];
		const luma = 0.299 * red + 0.587 * green + 0.114 * blue;
		expect(Math.abs(greyOf(red, green, blue, 255) - luma)).toBeLessThan(1);
	}
	for (const grey of [0, 1, 127, 254, 255]) expect(greyOf(grey, grey, grey, 255)).toBe(grey);
});

test('what is clear lies on white paper', () => {
	expect(greyOf(0, 0, 0, 0)).toBe(255);
	expect(greyOf(0, 0, 0, 51)).toBe(204);
	expect(greyOf(255, 255, 255, 128)).toBe(255);
});

test('greys are set from the place asked for on, and none before it', () => {
	const grey = new Uint8Array(4).fill(9);
	lumaInto(grey, 2, Uint8ClampedArray.of(10, 10, 10, 255, 20, 20, 20, 255));
	expect([...grey]).toEqual([9, 9, 10, 20]);
});
