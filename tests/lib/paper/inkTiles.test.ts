import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { around, type Box } from '$core/geometry';
import { InkTiles, type SheetSize } from '$lib/paper/inkTiles';
import { depthAt, InkHost, stubCanvas } from '../../support/inkedCanvas';

beforeEach(() => {
	stubCanvas();
});
afterEach(() => {
	vi.unstubAllGlobals();
});

/** Three tiles wide and two high, and no whole number of them. */
const size: SheetSize = { widthPx: 600, heightPx: 500 };
/** Two pixels to a point. */
const view: Box = { x: 36, y: 100, width: 300, height: 250 };

function layer(own: SheetSize = size) {
	const host = new InkHost();
	const tiles = new InkTiles(host as unknown as HTMLElement);
	tiles.reset(own);
	return { host, tiles };
}

type Line = readonly [x0: number, y0: number, x1: number, y1: number];

const boxOf = ([x0, y0, x1, y1]: Line): Box =>
	around([
		{ x: x0, y: y0, width: 0, height: 0 },
		{ x: x1, y: y1, width: 0, height: 0 }
	]);

const drawLine =
	([x0, y0, x1, y1]: Line) =>
	(context: CanvasRenderingContext2D): void => {
		context.lineWidth = 1;
		context.beginPath();
		context.moveTo(x0, y0);
		context.lineTo(x1, y1);
		context.stroke();
	};

/** Ink at a place of the page. */
const inkAt = (host: InkHost, x: number, y: number, on: Box = view, own: SheetSize = size): number => {
	const scale = own.widthPx / on.width;
	return depthAt(host, own, Math.floor((x - on.x) * scale), Math.floor((y - on.y) * scale));
};

const inView = fc.tuple(
	fc.double({ min: 37, max: 335, noNaN: true }),
	fc.double({ min: 101, max: 349, noNaN: true }),
	fc.double({ min: 37, max: 335, noNaN: true }),
	fc.double({ min: 101, max: 349, noNaN: true })
);

describe('a layer of tiles', () => {
	test('shows a line where it is on the page, whole and once, across whichever tiles it runs', () => {
		fc.assert(
			fc.property(inView, (line) => {
				const { host, tiles } = layer();
				tiles.paint(view, boxOf(line), drawLine(line));
				const [x0, y0, x1, y1] = line;
				for (let step = 0; step <= 20; step += 1)
					expect(inkAt(host, x0 + ((x1 - x0) * step) / 20, y0 + ((y1 - y0) * step) / 20)).toBe(1);
			}),
			{ seed: 20270914, numRuns: 60 }
		);
	});

	test('shows the same page larger where less of it is in view', () => {
		const near = { x: 200, y: 200, width: 60, height: 50 };
		const { host, tiles } = layer();
		const line: Line = [210, 210, 250, 210];
		tiles.paint(near, boxOf(line), drawLine(line));
		for (const x of [210.5, 230, 249.5]) expect(inkAt(host, x, 210, near)).toBe(1);
		expect(inkAt(host, 230, 212, near)).toBe(0);
	});

	test('makes a tile when ink first reaches it, and keeps it', () => {
		const { host, tiles } = layer();
		expect(host.tiles).toHaveLength(0);
		const short: Line = [40, 110, 50, 110];
		tiles.paint(view, boxOf(short), drawLine(short));
		const [first] = host.tiles;
		expect(host.tiles).toHaveLength(1);
		tiles.paint(view, boxOf(short), drawLine(short));
		expect(host.tiles).toEqual([first]);
		expect(inkAt(host, 45, 110)).toBe(2);
		// From the first tile into the second: their border is 256 pixels from the left.
		const long: Line = [160, 110, 168, 110];
		tiles.paint(view, boxOf(long), drawLine(long));
		expect(host.tiles).toHaveLength(2);
	});

	test('makes the tile beside a line that ends on its border, because the round of a pixel lies there', () => {
		const { host, tiles } = layer();
		const line: Line = [120, 110, 163.5, 110];
		tiles.paint(view, boxOf(line), drawLine(line));
		expect(host.tiles).toHaveLength(2);
	});

	test('paints every tile where no box is given, and together they are as large as the sheet', () => {
		const { host, tiles } = layer();
		let painted = 0;
		tiles.paint(view, undefined, () => (painted += 1));
		expect([painted, host.tiles.length]).toEqual([6, 6]);
		const area = host.tiles.reduce((sum, { width, height }) => sum + width * height, 0);
		expect(area).toBe(size.widthPx * size.heightPx);
		expect(Math.max(...host.tiles.map(({ width, height }) => Math.max(width, height)))).toBe(256);
	});

	test('paints nothing where the box lies beside all tiles', () => {
		const { host, tiles } = layer();
		for (const box of [
			{ x: 0, y: 150, width: 20, height: 5 },
			{ x: 430, y: 150, width: 20, height: 5 },
			{ x: 100, y: 20, width: 20, height: 5 },
			{ x: 100, y: 500, width: 20, height: 5 }
		])
			tiles.paint(view, box, () => expect.unreachable('no tile shows it'));
		expect(host.tiles).toHaveLength(0);
	});

	test('takes the ink in a box off and leaves the rest, or takes all of it off, and makes no tile for that', () => {
		const { host, tiles } = layer();
		tiles.clear(view);
		expect(host.tiles).toHaveLength(0);
		const line: Line = [40, 110, 330, 340];
		tiles.paint(view, boxOf(line), drawLine(line));
		const at = (share: number) => inkAt(host, 40 + 290 * share, 110 + 230 * share);
		tiles.clear(view, { x: 40, y: 110, width: 145, height: 115 });
		expect([0.1, 0.25, 0.49].map(at)).toEqual([0, 0, 0]);
		expect([0.52, 0.75, 0.9].map(at)).toEqual([1, 1, 1]);
		tiles.clear(view);
		expect([0.52, 0.75, 0.9].map(at)).toEqual([0, 0, 0]);
	});

	test('at rest shows no tile and no ink; new ink brings back only the tiles it reaches, without the old ink', () => {
		const { host, tiles } = layer();
		const long: Line = [40, 110, 330, 340];
		tiles.paint(view, boxOf(long), drawLine(long));
		const laid = [...host.tiles];
		tiles.rest(view);
		expect(host.tiles).toEqual(laid);
		expect(laid.every(({ hidden }) => hidden)).toBe(true);
		// Taking ink off is no reason to show a tile.
		tiles.clear(view, { x: 300, y: 120, width: 20, height: 20 });
		expect(laid.every(({ hidden }) => hidden)).toBe(true);
		const short: Line = [40, 130, 50, 130];
		tiles.paint(view, boxOf(short), drawLine(short));
		expect(host.tiles).toEqual(laid);
		expect(laid.filter(({ hidden }) => !hidden)).toHaveLength(1);
		expect([inkAt(host, 45, 130), inkAt(host, 60, 126)]).toEqual([1, 0]);
	});

	test('is empty after a new size, and shows ink at its place in that', () => {
		const { host, tiles } = layer();
		const line: Line = [40, 110, 330, 340];
		tiles.paint(view, boxOf(line), drawLine(line));
		const small = { widthPx: 300, heightPx: 250 };
		tiles.reset(small);
		expect(host.tiles).toHaveLength(0);
		tiles.paint(view, boxOf(line), drawLine(line));
		expect([0.1, 0.5, 0.9].map((share) => inkAt(host, 40 + 290 * share, 110 + 230 * share, view, small))).toEqual([
			1, 1, 1
		]);
	});

	test('of no size yet is left alone', () => {
		const { host, tiles } = layer({ widthPx: 0, heightPx: 0 });
		tiles.paint(view, undefined, () => expect.unreachable('there is nothing to paint on'));
		tiles.clear(view);
		expect(host.tiles).toHaveLength(0);
	});
});
