import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import type { Box } from '$core/geometry';
import type { Stroke, Tool } from '$core/ink/stroke';
import { InkLayers, type Shown } from '$lib/paper/inkLayers';
import { depthAt, InkHost, stubCanvas } from '../../support/inkedCanvas';

const FRAME_MS = 16;

/** How long ink may stay wet after the pen went up, and how long a mark is drawn before the eye at most. */
const DRYING_MS = 150;
const LONGEST_DRAWN_MS = 700;

beforeEach(() => {
	vi.useFakeTimers();
	stubCanvas();
	vi.stubGlobal('requestAnimationFrame', (act: (ms: number) => void) =>
		setTimeout(() => {
			act(performance.now());
		}, FRAME_MS)
	);
	vi.stubGlobal('cancelAnimationFrame', clearTimeout);
});
afterEach(() => {
	vi.useRealTimers();
	vi.unstubAllGlobals();
});

const size = { widthPx: 600, heightPx: 540 };
const whole: Box = { x: 0, y: 0, width: 300, height: 270 };

/** A line of 40 points to the right, in nine samples. Each begins in another tile of 128 points. */
const line = (x: number, y: number, tool: Tool = 'ballpoint'): Stroke => ({
	tool,
	points: Array.from({ length: 9 }, (_, i) => [x + 5 * i, y] as const)
});
const first = line(20, 20);
const second = line(20, 160);
const third = line(160, 160);

function paper() {
	const dry = new InkHost();
	const wet = new InkHost();
	let view = whole;
	const layers = new InkLayers(() => view);
	const removeDry = layers.layDry(dry as unknown as HTMLElement);
	const removeWet = layers.layWet(wet as unknown as HTMLElement);
	layers.resetWet(size);
	const shown = (...strokes: readonly Stroke[]): Shown => ({ ink: { page: 1, strokes }, view, size });
	/** How many times the ink of a stroke lies on a layer, at a share of its length. */
	const on = (host: InkHost, { points }: Stroke, share: number): number => {
		const [x, y] = points[Math.round(share * (points.length - 1))]!;
		const scale = size.widthPx / view.width;
		return depthAt(host, size, Math.floor((x - view.x) * scale), Math.floor((y - view.y) * scale));
	};
	return {
		layers,
		dry,
		wet,
		shown,
		removeDry,
		removeWet,
		look: (at: Box) => (view = at),
		/** Times that a stroke is seen: dry, then wet. */
		seen: (stroke: Stroke, share = 0.5) => [on(dry, stroke, share), on(wet, stroke, share)],
		/** Calls that drew on the dry layer's tiles, those that are gone left out. */
		drawn: () => dry.tiles.reduce((sum, tile) => sum + tile.drawn, 0)
	};
}

const DRY = [1, 0];
const WET = [0, 1];
const NOWHERE = [0, 0];

describe('a stroke by hand', () => {
	test('is wet as far as the hand has come, once', () => {
		const { layers, seen } = paper();
		layers.draw({ ...first, points: first.points.slice(0, 5) });
		expect([seen(first, 0.25), seen(first, 1)]).toEqual([WET, NOWHERE]);
		layers.draw({ ...first, points: first.points.slice(0, 7) });
		layers.draw(first);
		expect([0, 0.25, 1].map((share) => seen(first, share))).toEqual([WET, WET, WET]);
	});

	test('stays wet after the pen went up until it has dried, and is painted dry once', () => {
		const { layers, seen, shown, drawn } = paper();
		layers.show(shown(), undefined);
		layers.draw(first);
		layers.lift(false);
		layers.show(shown(first), undefined);
		expect(seen(first)).toEqual(WET);
		vi.advanceTimersByTime(DRYING_MS - 1);
		expect(seen(first)).toEqual(WET);
		vi.advanceTimersByTime(1);
		expect(seen(first)).toEqual(DRY);
		layers.release();
		layers.show(shown(first), undefined);
		vi.advanceTimersByTime(2000);
		expect([seen(first), drawn()]).toEqual([DRY, 1]);
	});

	test('leaves no wet tile in sight once it has dried: a browser copies each for every frame', () => {
		const { layers, wet, dry, shown } = paper();
		layers.show(shown(), undefined);
		for (const stroke of [first, second]) {
			layers.release();
			layers.draw(stroke);
			layers.lift(false);
		}
		layers.show(shown(first, second), undefined);
		expect(wet.tiles.some(({ hidden }) => !hidden)).toBe(true);
		vi.advanceTimersByTime(DRYING_MS);
		expect(wet.tiles.every(({ hidden }) => hidden)).toBe(true);
		expect(dry.tiles.some(({ hidden }) => hidden)).toBe(false);
	});

	test('that has dried holds nothing back: an undo shows at once, and does not come back with the next stroke', () => {
		const { layers, seen, shown } = paper();
		layers.show(shown(), undefined);
		layers.draw(first);
		layers.lift(false);
		layers.show(shown(first), undefined);
		vi.advanceTimersByTime(DRYING_MS);
		layers.show(shown(), undefined);
		expect(seen(first)).toEqual(NOWHERE);
		layers.draw(second);
		layers.lift(false);
		// The next pen is down before the page has the second stroke.
		layers.release();
		expect(seen(first)).toEqual(NOWHERE);
	});

	test('is dried at once by the next pen down, whose own ink then has all its time', () => {
		const { layers, seen, shown } = paper();
		layers.show(shown(), undefined);
		layers.draw(first);
		layers.lift(false);
		layers.show(shown(first), undefined);
		vi.advanceTimersByTime(100);
		layers.release();
		layers.draw(second);
		expect([seen(first), seen(second)]).toEqual([DRY, WET]);
		vi.advanceTimersByTime(20);
		layers.lift(false);
		layers.show(shown(first, second), undefined);
		// The first stroke would have dried by now.
		vi.advanceTimersByTime(DRYING_MS - 10);
		expect([seen(first), seen(second)]).toEqual([DRY, WET]);
		vi.advanceTimersByTime(10);
		expect([seen(first), seen(second)]).toEqual([DRY, DRY]);
	});

	test('that was none leaves nothing, and the ink below as it was', () => {
		const { layers, seen, shown } = paper();
		layers.show(shown(first), undefined);
		layers.draw(second);
		layers.drop(shown(first));
		expect([seen(first), seen(second)]).toEqual([DRY, NOWHERE]);
		layers.draw(third);
		expect([seen(second), seen(third)]).toEqual([NOWHERE, WET]);
	});

	test('that is undone while it is wet is gone when it would have dried', () => {
		const { layers, seen, shown } = paper();
		layers.show(shown(first), undefined);
		layers.draw(second);
		layers.lift(false);
		layers.show(shown(first, second), undefined);
		layers.show(shown(first), undefined);
		vi.advanceTimersByTime(DRYING_MS);
		expect([seen(first), seen(second)]).toEqual([DRY, NOWHERE]);
	});

	test('dries at once where another part of the page is shown, in its place there', () => {
		const { layers, seen, shown, look } = paper();
		layers.show(shown(), undefined);
		layers.draw(first);
		layers.lift(false);
		layers.show(shown(first), undefined);
		look({ x: 10, y: 10, width: 100, height: 90 });
		layers.show(shown(first), undefined);
		expect([0, 0.5, 1].map((share) => seen(first, share))).toEqual([DRY, DRY, DRY]);
	});
});

describe('the dry ink', () => {
	test('is painted anew after an undo', () => {
		const { layers, seen, shown } = paper();
		layers.show(shown(first, second), undefined);
		expect([seen(first), seen(second)]).toEqual([DRY, DRY]);
		layers.show(shown(first), undefined);
		expect([seen(first), seen(second)]).toEqual([DRY, NOWHERE]);
	});

	test('is painted anew where a stroke gave way to another: as many as before, and not the same', () => {
		const { layers, seen, shown } = paper();
		layers.show(shown(first, second), undefined);
		layers.show(shown(first, third), undefined);
		expect([first, second, third].map((stroke) => seen(stroke))).toEqual([DRY, NOWHERE, DRY]);
	});

	test('takes only the strokes that came on top, and leaves those below alone', () => {
		const { layers, seen, shown, drawn, dry } = paper();
		layers.show(shown(first), undefined);
		const [tile] = dry.tiles;
		layers.show(shown(first, second, third), undefined);
		expect([first, second, third].map((stroke) => seen(stroke))).toEqual([DRY, DRY, DRY]);
		expect(dry.tiles).toContain(tile);
		expect([tile!.drawn, drawn()]).toEqual([1, 3]);
	});

	test('is painted anew where the sheet has another size on the screen, as fine as that', () => {
		const { layers, shown, dry } = paper();
		layers.show(shown(first), undefined);
		const large = { widthPx: 1200, heightPx: 1080 };
		layers.show({ ...shown(first), size: large }, undefined);
		const [x, y] = first.points[4]!;
		expect(depthAt(dry, large, 4 * x, 4 * y)).toBe(1);
		for (const tile of dry.tiles) expect(tile.style.width).toBe(`${(100 * tile.width) / large.widthPx}%`);
	});

	test('is painted anew after a mishap, which may lie anywhere', () => {
		const { layers, shown, dry, seen } = paper();
		layers.show(shown(first), undefined);
		const before = dry.tiles.length;
		const now = shown(first);
		layers.show({ ...now, ink: { ...now.ink, mishaps: [{ kind: 'fold', at: 200, along: 'x' }] } }, undefined);
		expect(before).toBeLessThan(dry.tiles.length);
		expect(seen(line(200, 200), 0.5)[0]).toBeGreaterThan(0);
		// What happened to the sheet lies over all strokes, the next one too.
		const folded = dry.tiles[0];
		const next = shown(first, second);
		layers.show({ ...next, ink: { ...next.ink, mishaps: [{ kind: 'fold', at: 200, along: 'x' }] } }, undefined);
		expect(dry.tiles).not.toContain(folded);
		layers.show(shown(first), undefined);
		expect([seen(first), seen(line(200, 200))]).toEqual([DRY, NOWHERE]);
	});

	test('is painted anew under the eraser, once in a frame however often it moves', () => {
		const { layers, shown, seen, dry } = paper();
		const pencilled = [line(20, 20, 'pencil'), line(20, 160, 'pencil')] as const;
		const rubber = line(20, 20, 'eraser');
		layers.show(shown(...pencilled), undefined);
		let asked = 0;
		const erase = (points: number): void => {
			layers.erase(() => {
				asked += 1;
				return shown(...pencilled, { ...rubber, points: rubber.points.slice(0, points) });
			});
		};
		erase(2);
		erase(3);
		expect(seen(pencilled[0], 0)).toEqual(DRY);
		vi.advanceTimersByTime(FRAME_MS);
		expect(asked).toBe(1);
		expect([seen(pencilled[0], 0), seen(pencilled[0], 1), seen(pencilled[1])]).toEqual([NOWHERE, DRY, DRY]);
		erase(9);
		vi.advanceTimersByTime(FRAME_MS);
		expect([seen(pencilled[0], 0), seen(pencilled[0], 1), seen(pencilled[1])]).toEqual([NOWHERE, NOWHERE, DRY]);
		// What was erased so far comes back where the eraser's touch was none.
		layers.drop(shown(...pencilled));
		expect([seen(pencilled[0], 0), seen(pencilled[0], 1), seen(pencilled[1])]).toEqual([DRY, DRY, DRY]);
		expect(dry.tiles.every((tile) => tile.host === dry)).toBe(true);
	});

	test('is not held back when an eraser is lifted', () => {
		const { layers, shown, seen } = paper();
		const pencilled = line(20, 20, 'pencil');
		layers.show(shown(pencilled), undefined);
		layers.lift(true);
		layers.show(shown(pencilled, line(20, 20, 'eraser')), undefined);
		expect(seen(pencilled)).toEqual(NOWHERE);
	});

	test('is not touched by an eraser whose page is gone when its frame comes', () => {
		const { layers, shown, seen } = paper();
		layers.show(shown(first), undefined);
		layers.erase(() => undefined);
		layers.erase(() => shown(second));
		layers.stop();
		vi.advanceTimersByTime(1000);
		expect([seen(first), seen(second)]).toEqual([DRY, NOWHERE]);
	});
});

describe('a mark that was placed by keys', () => {
	const mark = (number: number, ...strokes: readonly Stroke[]) => ({ number, page: 1, strokes });

	test('is drawn before the eye from its beginning, over what was there, and then dry', () => {
		const { layers, shown, seen, drawn } = paper();
		layers.show(shown(first), undefined);
		layers.show(shown(first, second, third), mark(1, second, third));
		expect([first, second, third].map((stroke) => seen(stroke))).toEqual([DRY, NOWHERE, NOWHERE]);
		const firstSeenMs = [second, third].map(() => [Infinity, Infinity]);
		for (let ms = 0; ms <= LONGEST_DRAWN_MS + FRAME_MS; ms += 1) {
			vi.advanceTimersByTime(1);
			[second, third].forEach((stroke, i) => {
				[0, 1].forEach((end) => {
					const times = seen(stroke, end);
					expect(times[0]! + times[1]!).toBeLessThanOrEqual(1);
					if (times[1] === 1) firstSeenMs[i]![end] = Math.min(firstSeenMs[i]![end]!, ms);
				});
			});
		}
		expect(firstSeenMs.flat()).toEqual([...firstSeenMs.flat()].sort((a, b) => a - b));
		expect(new Set(firstSeenMs.flat()).size).toBeGreaterThanOrEqual(3);
		expect([first, second, third].map((stroke) => seen(stroke))).toEqual([DRY, DRY, DRY]);
		expect(drawn()).toBe(3);
	});

	test('is drawn before the eye once, and another like it again', () => {
		const { layers, shown, seen } = paper();
		layers.show(shown(first), mark(1, first));
		vi.advanceTimersByTime(LONGEST_DRAWN_MS + 2 * FRAME_MS);
		layers.show(shown(first, second), mark(1, first));
		expect([seen(first), seen(second)]).toEqual([DRY, DRY]);
		layers.show(shown(first, second, third), mark(2, third));
		expect(seen(third)).toEqual(NOWHERE);
		vi.advanceTimersByTime(LONGEST_DRAWN_MS + 2 * FRAME_MS);
		expect(seen(third)).toEqual(DRY);
	});

	test('is there at once for a voter who wants no motion', () => {
		stubCanvas(true);
		const { layers, shown, seen } = paper();
		layers.show(shown(first), undefined);
		layers.show(shown(first, second), mark(1, second));
		expect([seen(first), seen(second)]).toEqual([DRY, DRY]);
		vi.advanceTimersByTime(FRAME_MS);
		expect([seen(second), vi.getTimerCount()]).toEqual([DRY, 0]);
	});

	test('dries the ink of a hand that is still wet, and does not wait for it', () => {
		const { layers, shown, seen } = paper();
		layers.show(shown(), undefined);
		layers.draw(first);
		layers.lift(false);
		layers.show(shown(first), undefined);
		layers.show(shown(first, second), mark(1, second));
		expect(seen(first)).toEqual(DRY);
		vi.advanceTimersByTime(3 * FRAME_MS);
		expect([seen(first), seen(second, 0)]).toEqual([DRY, WET]);
	});

	test('that is undone while it is drawn leaves nothing', () => {
		const { layers, shown, seen } = paper();
		layers.show(shown(first), undefined);
		layers.show(shown(first, second), mark(1, second));
		vi.advanceTimersByTime(5 * FRAME_MS);
		expect(seen(second, 0)).toEqual(WET);
		layers.show(shown(first), mark(1, second));
		vi.advanceTimersByTime(1000);
		expect([seen(first), seen(second, 0)]).toEqual([DRY, NOWHERE]);
	});

	test('that is still drawn is whole and dry when a pen comes down, and leaves that one’s ink alone', () => {
		const { layers, shown, seen } = paper();
		layers.show(shown(first), mark(1, first));
		vi.advanceTimersByTime(5 * FRAME_MS);
		layers.release();
		layers.draw(second);
		vi.advanceTimersByTime(1000);
		expect([seen(first, 0), seen(first, 1), seen(second)]).toEqual([DRY, DRY, WET]);
	});
});

describe('layers that are taken away', () => {
	test('dry what is wet, and nothing is painted afterwards', () => {
		const { layers, shown, seen, drawn, removeDry, removeWet } = paper();
		layers.show(shown(), undefined);
		layers.draw(first);
		layers.lift(false);
		layers.show(shown(first), undefined);
		removeDry();
		removeWet();
		expect([seen(first), vi.getTimerCount()]).toEqual([DRY, 0]);
		layers.draw(second);
		layers.show(shown(first, second), undefined);
		expect([drawn(), seen(second)]).toEqual([1, NOWHERE]);
	});

	test('are painted anew where a sheet lays them again', () => {
		const { layers, shown, removeDry } = paper();
		layers.show(shown(first), undefined);
		removeDry();
		const host = new InkHost();
		layers.layDry(host as unknown as HTMLElement);
		layers.show(shown(first), undefined);
		expect(host.tiles.reduce((sum, tile) => sum + tile.drawn, 0)).toBe(1);
	});
});
