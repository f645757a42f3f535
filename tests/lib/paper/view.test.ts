import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Box } from '$core/geometry';
import { FINGER_PX, slid, toPage, zoomed } from '$lib/paper/view';

const view: Box = { x: 36, y: 100, width: 260, height: 150 };
const targets: Box[] = [{ x: 40, y: 120, width: 20, height: 9 }];

describe('what is shown of a page', () => {
	it('zoomed makes every target wide enough for a finger and shows the side where the targets are', () => {
		for (const widthPx of [280, 320, 344, 700]) {
			const left = zoomed(view, widthPx, targets, 'left');
			expect((targets[0]!.width * widthPx) / left.width).toBeGreaterThanOrEqual(FINGER_PX - 1e-9);
			expect(left.x).toBe(view.x);
			const right = zoomed(view, widthPx, targets, 'right');
			expect(right.x + right.width).toBeCloseTo(view.x + view.width);
		}
	});

	it('slides along the rows but never past them', () => {
		const part = zoomed(view, 320, targets, 'left');
		fc.assert(
			fc.property(fc.double({ min: -1000, max: 1000, noNaN: true }), (dx) => {
				const moved = slid(part, view, dx);
				expect(moved.x).toBeGreaterThanOrEqual(view.x);
				expect(moved.x + moved.width).toBeLessThanOrEqual(view.x + view.width + 1e-9);
			})
		);
	});

	it('maps the corners of the window rectangle to the corners of the view', () => {
		const on = { left: 12, top: 80, width: 320, height: 200 };
		expect(toPage(view, on, 12, 80)).toEqual({ x: 36, y: 100 });
		expect(toPage(view, on, 332, 280)).toEqual({ x: 296, y: 250 });
	});
});
