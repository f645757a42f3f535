import { describe, expect, it } from 'vitest';
import { Hand, type HandEvent, type HandSample } from '$lib/paper/hand';

const page = { widthPt: 612, heightPt: 792 };
/** A sheet shown at two CSS pixels a point, its corner at (10, 20). */
const hand = () => new Hand((x, y) => ({ x: (x - 10) / 2, y: (y - 20) / 2 }), page);

const event = (x: number, y: number, more: Partial<HandEvent> = {}): HandEvent => ({
	clientX: x,
	clientY: y,
	timeStamp: 1000,
	pointerId: 1,
	pointerType: 'mouse',
	button: 0,
	...more
});
const finger = (id: number, x: number, y: number, timeStamp: number): HandEvent =>
	event(x, y, { pointerType: 'touch', pointerId: id, timeStamp });

describe('a stroke', () => {
	it('is in page points with milliseconds from pen down', () => {
		const h = hand();
		expect(h.down(event(110, 220))).toBe('draw');
		h.move(event(112, 220, { timeStamp: 1008 }));
		expect(h.up(event(114, 224, { timeStamp: 1016.4 }))).toEqual([
			[50, 100, 0],
			[51, 100, 8],
			[52, 102, 16]
		]);
	});

	it('keeps every sample that the browser merged into one event', () => {
		const h = hand();
		h.down(event(110, 220));
		const merged: HandSample[] = [1, 2, 3, 4, 5].map((i) => ({
			clientX: 110 + i,
			clientY: 220,
			timeStamp: 1000 + i
		}));
		h.move(event(115, 220, { timeStamp: 1005, getCoalescedEvents: () => merged }));
		const points = h.up(event(115, 220, { timeStamp: 1006 }));
		expect(points?.map(([x]) => x)).toEqual([50, 50.5, 51, 51.5, 52, 52.5]);
	});

	it('uses the event itself where the browser gives no merged samples', () => {
		const h = hand();
		h.down(event(110, 220));
		h.move(event(120, 220, { getCoalescedEvents: () => [] }));
		expect(h.up(event(120, 220))).toHaveLength(2);
	});

	it('of a tap is one point', () => {
		const h = hand();
		h.down(event(110, 220));
		expect(h.up(event(110, 220, { timeStamp: 1050 }))).toEqual([[50, 100, 0]]);
	});

	it('ends where the pen was last seen, though the page moved under it', () => {
		let movedPx = 0;
		const h = new Hand((x, y) => ({ x: x / 2, y: (y + movedPx) / 2 }), page);
		h.down(event(110, 220));
		h.move(event(120, 220, { timeStamp: 1008 }));
		movedPx = 40;
		expect(h.up(event(120, 220, { timeStamp: 1016 }))).toEqual([
			[55, 110, 0],
			[60, 110, 8]
		]);
	});

	it('may run off the sheet, but not far', () => {
		const h = hand();
		h.down(event(110, 220));
		h.move(event(-1e9, 1e9));
		expect(h.up(event(-1e9, 1e9))?.at(-1)?.slice(0, 2)).toEqual([-36, 792 + 36]);
	});

	it('of the right mouse button is none', () => {
		const h = hand();
		expect(h.down(event(110, 220, { button: 2 }))).toBe('ignore');
		expect(h.up(event(110, 220, { button: 2 }))).toBeUndefined();
	});
});

describe('fingers and palms', () => {
	it('a cancelled touch leaves nothing, and the next one draws', () => {
		const h = hand();
		h.down(finger(1, 110, 220, 0));
		h.move(finger(1, 150, 220, 10));
		h.cancel({ pointerId: 1 });
		expect(h.isDrawing).toBe(false);
		expect(h.up(finger(1, 150, 220, 20))).toBeUndefined();
		expect(h.down(finger(2, 110, 220, 500))).toBe('draw');
		expect(h.up(finger(2, 110, 220, 520))).toHaveLength(1);
	});

	it('two fingers move the page and draw nothing, until both are lifted', () => {
		const h = hand();
		h.down(finger(1, 110, 220, 0));
		expect(h.down(finger(2, 210, 220, 80))).toBe('scroll');
		expect(h.move(finger(1, 110, 200, 90))).toBe('scroll');
		expect(h.moved).toEqual({ x: 0, y: -10 });
		expect(h.move(finger(2, 210, 200, 91))).toBe('scroll');
		expect(h.moved).toEqual({ x: 0, y: -10 });
		expect(h.up(finger(1, 110, 200, 120))).toBeUndefined();
		expect(h.move(finger(2, 210, 100, 130))).toBe('scroll');
		expect(h.up(finger(2, 210, 100, 150))).toBeUndefined();
		expect(h.down(finger(3, 110, 220, 400))).toBe('draw');
	});

	it('a hand that comes to rest during a long stroke does not end it', () => {
		const h = hand();
		h.down(finger(1, 110, 220, 0));
		h.move(finger(1, 130, 220, 300));
		expect(h.down(finger(2, 300, 500, 400))).toBe('ignore');
		expect(h.move(finger(2, 301, 500, 410))).toBe('ignore');
		h.move(finger(1, 150, 220, 420));
		expect(h.up(finger(1, 150, 220, 430))).toHaveLength(3);
	});

	it('slow fingers move the page too, as long as the first has not begun to draw', () => {
		const slow = hand();
		slow.down(finger(1, 110, 220, 0));
		slow.move(finger(1, 111, 221, 400));
		expect(slow.down(finger(2, 210, 220, 600))).toBe('scroll');
		const drawing = hand();
		drawing.down(finger(1, 110, 220, 0));
		drawing.move(finger(1, 120, 220, 400));
		expect(drawing.down(finger(2, 210, 220, 600))).toBe('ignore');
		const resting = hand();
		resting.down(finger(1, 110, 220, 0));
		expect(resting.down(finger(2, 210, 220, 1500))).toBe('ignore');
	});

	it('a pen beats a finger, and the hand that holds it does not draw', () => {
		const h = hand();
		h.down(finger(1, 300, 500, 0));
		expect(h.down(event(110, 220, { pointerType: 'pen', pointerId: 9, timeStamp: 50 }))).toBe('draw');
		expect(h.move(finger(1, 320, 500, 60))).toBe('ignore');
		const stroke = h.up(event(112, 220, { pointerType: 'pen', pointerId: 9, timeStamp: 90 }));
		expect(stroke?.[0]).toEqual([50, 100, 0]);
		expect(h.down(finger(2, 300, 500, 200))).toBe('ignore');
		expect(h.down(finger(3, 110, 220, 2000))).toBe('draw');
	});

	it('each of two fingers moves the page by half of its own way since its last move, along and across', () => {
		const h = hand();
		h.down(finger(1, 110, 220, 0));
		h.down(finger(2, 210, 220, 80));
		h.move(finger(1, 120, 226, 90));
		expect(h.moved).toEqual({ x: 5, y: 3 });
		h.move(finger(1, 124, 226, 95));
		expect(h.moved).toEqual({ x: 2, y: 0 });
	});

	it('a palm that came to rest before the pen was lifted does not draw soon after', () => {
		const pen = (timeStamp: number): HandEvent => event(110, 220, { pointerType: 'pen', pointerId: 9, timeStamp });
		const long = hand();
		long.down(pen(0));
		long.up(pen(5000));
		expect(long.down(finger(1, 300, 500, 5900))).toBe('ignore');
		const lost = hand();
		lost.down(pen(0));
		lost.move(pen(5000));
		lost.cancel({ pointerId: 9 });
		expect(lost.down(finger(1, 300, 500, 5900))).toBe('ignore');
	});

	it('a resting hand that is lifted or cancelled does not end the stroke', () => {
		const h = hand();
		h.down(finger(1, 110, 220, 0));
		h.move(finger(1, 130, 220, 300));
		h.down(finger(2, 300, 500, 400));
		expect(h.up(finger(2, 300, 500, 410))).toBeUndefined();
		h.cancel({ pointerId: 2 });
		expect(h.up(finger(1, 150, 220, 430))).toHaveLength(3);
	});

	it('a third finger draws nothing while two move the page', () => {
		const h = hand();
		h.down(finger(1, 110, 220, 0));
		h.down(finger(2, 210, 220, 80));
		expect(h.down(finger(3, 310, 220, 90))).toBe('ignore');
	});

	it('a second pen or mouse button does not begin another stroke', () => {
		const h = hand();
		h.down(event(110, 220, { pointerType: 'pen', pointerId: 9 }));
		expect(h.down(event(150, 220, { pointerType: 'pen', pointerId: 10 }))).toBe('ignore');
		expect(h.down(event(150, 220, { pointerId: 11 }))).toBe('ignore');
		expect(h.points[0]).toEqual([50, 100, 0]);
	});

	it('a finger that drew once may be slow the next time', () => {
		const h = hand();
		h.down(finger(1, 110, 220, 0));
		h.move(finger(1, 150, 220, 300));
		h.up(finger(1, 150, 220, 310));
		h.down(finger(1, 110, 220, 1000));
		expect(h.down(finger(2, 210, 220, 1600))).toBe('scroll');
	});
});
