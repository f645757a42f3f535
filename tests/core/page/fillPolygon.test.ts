import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fillPolygon, polygonArea, printAreaInPlace } from '$core/page/fillPolygon';

/** Covered shares of an area of 64 by 64 pixels, from what is printed at full density on white. */
function covered(
	contours: readonly Float64Array[],
	scale = 1,
	x = 0,
	y = 0
): { sum: number; at: (x: number, y: number) => number } {
	const area = polygonArea(0, 0, 64, 64);
	fillPolygon(area, contours, scale, x, y);
	const image = { width: 64, height: 64, data: new Uint8Array(64 * 64).fill(255) };
	printAreaInPlace(image, area, 1);
	let sum = 0;
	for (const grey of image.data) sum += 1 - grey / 255;
	return { sum, at: (column, row) => 1 - image.data[row * 64 + column]! / 255 };
}

/** Twice-signed sum over the corners: the surveyor's formula. */
function areaOf(contour: Float64Array): number {
	let sum = 0;
	for (let i = 0; i < contour.length; i += 2) {
		const j = (i + 2) % contour.length;
		sum += contour[i]! * contour[j + 1]! - contour[j]! * contour[i + 1]!;
	}
	return Math.abs(sum) / 2;
}

const place = fc.double({ min: 0, max: 64, noNaN: true });

describe('a filled polygon', () => {
	it('covers the area of any triangle', () => {
		fc.assert(
			fc.property(fc.tuple(place, place, place, place, place, place), (points) => {
				const triangle = Float64Array.from(points);
				// Each pixel is rounded to a 255th.
				expect(Math.abs(covered([triangle]).sum - areaOf(triangle))).toBeLessThan(0.02 * 64 + 0.01 * areaOf(triangle));
			})
		);
	});

	it('comes to an end on an edge that is level but for the last digit', () => {
		const sliver = Float64Array.of(0, 0, 64, 5e-324, 32, 40);
		expect(covered([sliver]).sum).toBeCloseTo(64 * 20, -1);
	});

	it('covers each pixel of a box by the part of it inside', () => {
		const box = covered([Float64Array.of(10.25, 20.5, 30.75, 20.5, 30.75, 40, 10.25, 40)]);
		expect(box.at(10, 20)).toBeCloseTo(0.375, 2);
		expect(box.at(15, 20)).toBeCloseTo(0.5, 2);
		expect(box.at(10, 25)).toBeCloseTo(0.75, 2);
		expect(box.at(30, 25)).toBeCloseTo(0.75, 2);
		expect(box.at(15, 25)).toBe(1);
		expect(box.at(31, 25)).toBe(0);
		expect(box.at(15, 40)).toBe(0);
	});

	it('leaves a hole where a contour winds the other way, and fills twice over only once', () => {
		const outer = Float64Array.of(10, 10, 50, 10, 50, 50, 10, 50);
		const inner = Float64Array.of(20, 20, 20, 30, 30, 30, 30, 20);
		expect(covered([outer, inner]).sum).toBeCloseTo(1600 - 100, 0);
		expect(covered([outer, outer]).sum).toBeCloseTo(1600, 0);
	});

	it('of a disc has pi times its radius squared, scaled and moved', () => {
		const disc = new Float64Array(400);
		for (let i = 0; i < 200; i++) {
			disc[2 * i] = Math.cos((i / 100) * Math.PI);
			disc[2 * i + 1] = Math.sin((i / 100) * Math.PI);
		}
		expect(covered([disc], 20.3, 31.7, 30.2).sum / (Math.PI * 20.3 * 20.3)).toBeCloseTo(1, 2);
	});

	it('is cut off at the edges of the page', () => {
		const area = polygonArea(-10, -10, 100, 100);
		fillPolygon(area, [Float64Array.of(-8, -8, 85, -8, 85, 85, -8, 85)], 1, 0, 0);
		const image = { width: 64, height: 64, data: new Uint8Array(64 * 64).fill(255) };
		printAreaInPlace(image, area, 1);
		expect(image.data.every((grey) => grey === 0)).toBe(true);
	});
});
