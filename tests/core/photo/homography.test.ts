import { describe, expect, test } from 'vitest';
import { homographyOf, project, slopesAt, type Homography } from '../../../src/core/photo/homography';
import { randomFrom } from '../../../src/core/random';

/** A page seen from the side: turned, shortened and narrowed with distance. */
const tilted: Homography = Float64Array.of(1.4, -0.5, 900, 0.3, 1.1, 200, 2e-4, -1.5e-4);
const random = randomFrom(4);
const places = Array.from({ length: 12 }, () => ({ x: 1700 * random(), y: 2200 * random() }));

describe('a homography', () => {
	test.each([4, 12])('is found to a millionth of a pixel from %i places', (count) => {
		const from = places.slice(0, count);
		const found = homographyOf(
			from,
			from.map(({ x, y }) => project(tilted, x, y))
		)!;
		for (const { x, y } of places) {
			const [is, should] = [project(found, x, y), project(tilted, x, y)];
			expect(Math.hypot(is.x - should.x, is.y - should.y)).toBeLessThan(1e-6);
		}
	});

	test('settles on the middle of places that are a little off', () => {
		const seen = places.map(({ x, y }, i) => {
			const at = project(tilted, x, y);
			return { x: at.x + (i % 2 ? 0.5 : -0.5), y: at.y + (i % 3 ? 0.3 : -0.6) };
		});
		const found = homographyOf(places, seen)!;
		const off = places.map(({ x, y }) => {
			const [is, should] = [project(found, x, y), project(tilted, x, y)];
			return Math.hypot(is.x - should.x, is.y - should.y);
		});
		expect(Math.max(...off)).toBeLessThan(1);
	});

	test('is not there for three places, or for places on one line', () => {
		const line = [0, 1, 2, 3].map((i) => ({ x: 100 * i, y: 50 * i }));
		expect(homographyOf(line, places.slice(0, 4))).toBeUndefined();
		expect(homographyOf(places.slice(0, 3), places.slice(0, 3))).toBeUndefined();
	});

	test('says how the picture changes around a place', () => {
		const [a, b, c, d] = slopesAt(tilted, 800, 1100);
		const [at, right, below] = [
			project(tilted, 800, 1100),
			project(tilted, 800.001, 1100),
			project(tilted, 800, 1100.001)
		];
		expect([a, c, b, d].map((slope) => slope.toFixed(4))).toEqual(
			[right.x - at.x, right.y - at.y, below.x - at.x, below.y - at.y].map((step) => (step * 1000).toFixed(4))
		);
	});
});
