import { describe, expect, test } from 'vitest';
import type { PageInk, Stroke } from '$core/ink/stroke';
import { isFarFrom } from '$lib/paper/isFarFrom';

const window = { x: 100, y: 100, width: 40, height: 40 };
const line = (x0: number, y0: number, x1: number, y1: number): Stroke => ({
	tool: 'ballpoint',
	points: [
		[x0, y0],
		[x1, y1]
	]
});
const page = (strokes: readonly Stroke[], more: Partial<PageInk> = {}): PageInk => ({ page: 1, strokes, ...more });

describe('isFarFrom', () => {
	const before = page([line(110, 110, 120, 120)]);
	const with_ = (...more: readonly Stroke[]) => page([...before.strokes, ...more]);

	test('holds for the same ink, and for ink that came elsewhere', () => {
		expect(isFarFrom(window, before, before)).toBe(true);
		expect(isFarFrom(window, before, with_(line(10, 10, 60, 60)))).toBe(true);
	});

	test('does not hold for ink in the window, at its edge, or across it between two far points', () => {
		expect(isFarFrom(window, before, with_(line(110, 130, 120, 130)))).toBe(false);
		expect(isFarFrom(window, before, with_(line(80, 95, 130, 95)))).toBe(false);
		expect(isFarFrom(window, before, with_(line(50, 120, 190, 121)))).toBe(false);
	});

	test('does not hold after an undo, another sheet or a mishap', () => {
		expect(isFarFrom(window, before, page([]))).toBe(false);
		expect(isFarFrom(window, before, page([line(110, 110, 120, 120)]))).toBe(false);
		const fold = { kind: 'fold', y: 300 } as unknown as NonNullable<PageInk['mishaps']>[number];
		expect(isFarFrom(window, before, { ...before, mishaps: [fold] })).toBe(false);
	});
});
