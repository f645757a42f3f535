import { describe, expect, test } from 'vitest';
import { homographyOf } from '$core/photo/homography';
import { dpiAt, slantAt } from '$core/photo/viewAt';
import { leastDpi, lens, shotOf } from '../../support/camera';

/** How a camera sees a flat sheet, tilted so far towards some side. */
const seen = (tilt: number, dpi: number) => lens({ ...shotOf(5), curlX: 0, curlY: 0, crease: 0, tilt, dpi }).project;

/** The same from pixels of the 200 dpi page. */
function viewFrom(tilt: number, dpi: number) {
	const project = seen(tilt, dpi);
	const corners = [
		[0, 0],
		[612, 0],
		[612, 792],
		[0, 792]
	] as const;
	return homographyOf(
		corners.map(([x, y]) => ({ x: (x * 200) / 72, y: (y * 200) / 72 })),
		corners.map(([x, y]) => project(x, y)).map(([x, y]) => ({ x, y }))
	)!;
}

describe('how a page looks in a view', () => {
	test('the slant of its middle is the angle that the camera leans, in the middle of the picture', () => {
		for (const tilt of [0, 10, 25, 40, 55])
			expect(Math.abs(slantAt(viewFrom(tilt, 150), 850, 1100) - tilt)).toBeLessThan(1);
	});

	test('the resolution where it is least is what the camera has there', () => {
		for (const dpi of [100, 150, 220]) {
			const least = leastDpi(seen(20, dpi));
			const view = viewFrom(20, dpi);
			const corners = [
				[0, 0],
				[1700, 0],
				[0, 2200],
				[1700, 2200]
			] as const;
			expect(Math.abs(Math.min(...corners.map(([x, y]) => dpiAt(view, x, y))) / least - 1)).toBeLessThan(0.02);
		}
	});

	test('the resolution is by area: twice as fine one way and half the other is as fine as before', () => {
		expect(dpiAt(Float64Array.of(2, 0, 0, 0, 0.5, 0, 0, 0), 10, 10)).toBeCloseTo(200, 9);
		expect(dpiAt(Float64Array.of(0, -0.5, 0, 0.5, 0, 0, 0, 0), 10, 10)).toBeCloseTo(100, 9);
		expect(slantAt(Float64Array.of(0, -0.5, 0, 0.5, 0, 0, 0, 0), 10, 10)).toBeCloseTo(0, 4);
	});

	test('the resolution and the slant of a mirror image are those of the image', () => {
		const view = Float64Array.of(1.5, 0.2, 0, -0.1, 1.2, 0, 0, 0);
		const mirrored = Float64Array.of(-1.5, -0.2, 0, -0.1, 1.2, 0, 0, 0);
		expect(dpiAt(mirrored, 850, 1100)).toBeCloseTo(dpiAt(view, 850, 1100), 9);
		expect(slantAt(mirrored, 850, 1100)).toBeCloseTo(slantAt(view, 850, 1100), 9);
	});
});
