import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { PX_PER_MM, PX_PER_PT, type GreyImage, type PixelBox } from '$core/image';
import type { Box } from '$core/geometry';
import { NIB_MM, type Mishap, type PageInk, type Stroke, type Tool } from '$core/ink/stroke';
import { inkPage, inkPageInPlace } from '$core/page/inkPage';
import { coverageAt, strokeDepth } from '$core/page/strokeDepth';
import { strokePath } from '$core/page/strokePath';

const PENS: readonly Tool[] = ['ballpoint', 'pencil', 'felt', 'faint', 'dry'];
const SIZE = { width: 340, height: 260 };

/** A small sheet with some print: bars of black, and a grey field. */
function sheet({ width, height } = SIZE): GreyImage {
	const data = new Uint8Array(width * height).fill(250);
	for (let y = 0; y < height; y++)
		for (let x = 0; x < width; x++) if (x % 60 < 6 || y % 70 < 4) data[y * width + x] = x % 120 < 60 ? 25 : 90;
	return { width, height, data };
}

const blank = ({ width, height } = SIZE): GreyImage => ({
	width,
	height,
	data: new Uint8Array(width * height).fill(250)
});
const alike = (a: GreyImage, b: GreyImage): boolean => Buffer.compare(a.data, b.data) === 0;
const page = (strokes: readonly Stroke[], mishaps: readonly Mishap[] = []): PageInk => ({ page: 1, strokes, mishaps });
const line = (tool: Tool, ...points: [number, number][]): Stroke => ({ tool, points });
const targetAt = (xPx: number, yPx: number): Box => ({
	x: xPx / PX_PER_PT,
	y: yPx / PX_PER_PT,
	width: 18,
	height: 9
});

const coordinate = (most: number) => fc.double({ min: -20, max: most, noNaN: true });
const anyStroke = (tools: readonly Tool[]) =>
	fc.record({
		tool: fc.constantFrom(...tools),
		points: fc.array(fc.tuple(coordinate(140), coordinate(110)), { minLength: 1, maxLength: 8 })
	});
const anyMishap: fc.Arbitrary<Mishap> = fc.oneof(
	fc.record({
		kind: fc.constant('stain' as const),
		x: coordinate(120),
		y: coordinate(90),
		radiusPt: fc.double({ min: 2, max: 40, noNaN: true }),
		seed: fc.nat()
	}),
	fc.record({
		kind: fc.constant('smudge' as const),
		x: coordinate(120),
		y: coordinate(90),
		dx: fc.double({ min: -50, max: 50, noNaN: true }),
		dy: fc.double({ min: -50, max: 50, noNaN: true })
	}),
	fc.record({
		kind: fc.constant('fold' as const),
		at: coordinate(90),
		along: fc.constantFrom('x' as const, 'y' as const)
	}),
	fc.record({ kind: fc.constant('bleed' as const), strokes: fc.array(anyStroke(['felt']), { maxLength: 3 }) })
);
const anyInk = fc
	.record({
		strokes: fc.array(anyStroke([...PENS, 'eraser']), { maxLength: 6 }),
		mishaps: fc.array(anyMishap, { maxLength: 3 })
	})
	.map(({ strokes, mishaps }) => page(strokes, mishaps));
const anyWindow: fc.Arbitrary<PixelBox> = fc.record({
	xPx: fc.integer({ min: -30, max: 330 }),
	yPx: fc.integer({ min: -30, max: 250 }),
	widthPx: fc.integer({ min: 0, max: 400 }),
	heightPx: fc.integer({ min: 0, max: 300 })
});

describe('the shape of a stroke', () => {
	/** Sum of the covered shares of all pixels, in square pixels. The eraser's width does not sway. */
	function coveredPx(stroke: Stroke): number {
		const path = { ...strokePath(stroke, 0, 0, 0), softPx: 0.5 };
		const depth = strokeDepth(path, { xPx: -50, yPx: -50, widthPx: 2000, heightPx: 2000 });
		if (!depth) return 0;
		let sum = 0;
		for (let row = 0; row < depth.height; row++)
			for (let column = depth.starts[row]!; column < depth.ends[row]!; column++)
				sum += coverageAt(depth.depths[row * depth.width + column]!, 0.5);
		return sum;
	}

	it('covers length times width and its round ends, at any slope', () => {
		fc.assert(
			fc.property(
				fc.double({ min: 0.3, max: 2, noNaN: true }),
				fc.double({ min: 0, max: Math.PI, noNaN: true }),
				fc.double({ min: 30, max: 200, noNaN: true }),
				(widthMm, angle, lengthPt) => {
					const to: [number, number] = [300 + lengthPt * Math.cos(angle), 300 + lengthPt * Math.sin(angle)];
					const width = widthMm * PX_PER_MM;
					const expected = lengthPt * PX_PER_PT * width + (Math.PI * width * width) / 4;
					const covered = coveredPx({ tool: 'eraser', widthMm, points: [[300, 300], to] });
					expect(Math.abs(covered / expected - 1)).toBeLessThan(0.01);
				}
			),
			{ numRuns: 60 }
		);
	});

	it('is a disc of the nib for a tap, however often the pen stays there', () => {
		for (const widthMm of [0.5, 0.7, 1, 1.2, 5])
			for (const points of [
				[[40.13, 50.4]],
				[
					[40.13, 50.4, 0],
					[40.13, 50.4, 90],
					[40.13, 50.4, 300]
				]
			]) {
				const radius = (widthMm * PX_PER_MM) / 2;
				const tap = { tool: 'ballpoint', widthMm, points } as unknown as Stroke;
				expect(Math.abs(coveredPx(tap) / (Math.PI * radius * radius) - 1)).toBeLessThan(0.02);
			}
	});

	it("takes as much light as a line of the tool's width at its core would, within 2 % over a long line", () => {
		for (const tool of ['ballpoint', 'pencil', 'felt', 'faint'] as const) {
			const strip = blank({ width: 1700, height: 57 });
			const { data } = inkPage(strip, page([line(tool, [20, 10.26], [580, 10.26])]), []);
			const taken = Array.from({ length: 57 }, (_, row) =>
				data.subarray(row * 1700 + 100, row * 1700 + 1500).reduce((sum, grey) => sum + 250 - grey, 0)
			);
			// The line's middle is the middle of this row of pixels.
			const core = taken[28]!;
			const width = taken.reduce((sum, row) => sum + row, 0) / core;
			expect(Math.abs(width / (NIB_MM[tool] * PX_PER_MM) - 1), tool).toBeLessThan(0.02);
		}
	});

	it('is nothing without points', () => {
		expect(alike(inkPage(sheet(), page([line('felt')]), []), sheet())).toBe(true);
	});

	it('is not darker where one stroke crosses itself, and a little where two strokes cross', () => {
		const along: [number, number][] = [
			[10, 20],
			[40, 20]
		];
		const down: [number, number][] = [
			[25, 30],
			[25, 10]
		];
		const once = inkPage(blank(), page([{ tool: 'felt', points: [...along, [40, 40], [25, 40], ...down] }]), []);
		const twice = inkPage(blank(), page([line('felt', ...along), line('felt', ...down)]), []);
		const at = Math.round(20 * PX_PER_PT) * SIZE.width + Math.round(25 * PX_PER_PT);
		const aside = at - 30;
		expect(Math.abs(once.data[at]! - once.data[aside]!)).toBeLessThanOrEqual(5);
		expect(twice.data[at]!).toBeLessThan(once.data[at]!);
	});
});

describe('the grey of the inks', () => {
	/** Mean grey over the middle half of the nib along a line. */
	function coreGrey(tool: Tool, lengthPt: number, seed: number): number {
		const image = inkPage(blank(), page([line(tool, [10, 30], [10 + lengthPt, 30])]), [], undefined, { seed });
		const middle = 30 * PX_PER_PT;
		const half = (NIB_MM[tool] * PX_PER_MM) / 4;
		let sum = 0;
		let count = 0;
		for (let y = Math.ceil(middle - half - 0.5); y + 0.5 <= middle + half; y++)
			for (let x = Math.ceil(10 * PX_PER_PT); x < (10 + lengthPt) * PX_PER_PT; x++) {
				sum += image.data[y * image.width + x]!;
				count += 1;
			}
		return sum / count;
	}

	it.each([
		['ballpoint', 33, 50],
		['pencil', 70, 90],
		['felt', 20, 30],
		['faint', 172, 192]
	] as const)('%s is from %d to %d under any seed', (tool, least, most) => {
		for (let seed = 0; seed < 12; seed++) {
			const grey = coreGrey(tool, 90, seed);
			expect(grey).toBeGreaterThan(least);
			expect(grey).toBeLessThan(most);
		}
	});

	it('of a drying pen starts as dark as a ballpoint and ends as paper', () => {
		const image = inkPage(blank(), page([line('dry', [5, 30], [120, 30])]), []);
		const mean = (fromPt: number, toPt: number) => {
			let sum = 0;
			let count = 0;
			for (let x = Math.ceil(fromPt * PX_PER_PT); x < toPt * PX_PER_PT; x++, count++)
				sum += image.data[83 * image.width + x]!;
			return sum / count;
		};
		expect(mean(6, 15)).toBeLessThan(55);
		expect(mean(108, 119)).toBeGreaterThan(240);
	});
});

describe('a window of the page', () => {
	it('drawn anew is the same to the byte as the whole page, and the rest is left alone', () => {
		fc.assert(
			fc.property(anyInk, anyInk, anyWindow, fc.nat(5), (before, ink, window, seed) => {
				const print = sheet();
				const anchors = [targetAt(20, 30), targetAt(200, 120)];
				const whole = inkPage(print, ink, anchors, undefined, { seed });
				const old = inkPage(print, before, anchors, undefined, { seed });
				const image = { ...old, data: old.data.slice() };
				inkPageInPlace(image, print, ink, anchors, window, { seed });
				const inside = (x: number, y: number) =>
					x >= window.xPx && x < window.xPx + window.widthPx && y >= window.yPx && y < window.yPx + window.heightPx;
				let wrong = 0;
				for (let y = 0; y < print.height; y++)
					for (let x = 0; x < print.width; x++) {
						const at = y * print.width + x;
						if (image.data[at] !== (inside(x, y) ? whole : old).data[at]) wrong += 1;
					}
				expect(wrong).toBe(0);
			}),
			{ numRuns: 60 }
		);
	});

	it('never changes the print or the ink it is given', () => {
		const print = sheet();
		const ink = page([line('felt', [10, 10], [60, 40])]);
		const copy = structuredClone(ink);
		inkPage(print, ink, []);
		expect(alike(print, sheet())).toBe(true);
		expect(ink).toEqual(copy);
	});

	it('is refused on a page of another size than its print', () => {
		expect(() => {
			inkPageInPlace(blank({ width: 10, height: 10 }), sheet(), page([]), []);
		}).toThrow(/expected a page of 340 x 260 pixels like its print, got 10 x 10/);
	});
});

describe('ink only darkens', () => {
	it('so one more stroke never lightens a pixel', () => {
		fc.assert(
			fc.property(anyInk, anyStroke(PENS), (ink, stroke) => {
				const less = inkPage(sheet(), ink, []);
				const more = inkPage(sheet(), { ...ink, strokes: [...ink.strokes, stroke] }, []);
				expect(more.data.every((grey, at) => grey <= less.data[at]!)).toBe(true);
			}),
			{ numRuns: 60 }
		);
	});

	it('and no ink, eraser or mishap lightens print', () => {
		fc.assert(
			fc.property(anyInk, (ink) => {
				const print = sheet();
				expect(inkPage(print, ink, []).data.every((grey, at) => grey <= print.data[at]!)).toBe(true);
			}),
			{ numRuns: 60 }
		);
	});
});

describe('the eraser', () => {
	const mark = (tool: Tool) => line(tool, [30, 40], [80, 40]);
	const rub = line('eraser', [20, 40], [90, 40]);
	/** Light taken on the page, as a share of what the mark alone takes. */
	function left(tool: Tool, ...strokes: Stroke[]): number {
		const taken = (ink: PageInk) => inkPage(blank(), ink, []).data.reduce((sum, grey) => sum + 250 - grey, 0);
		return taken(page(strokes)) / taken(page([mark(tool)]));
	}

	it('takes most of a pencil line, little of ballpoint and hardly any felt-tip', () => {
		const pencil = left('pencil', mark('pencil'), rub);
		expect(pencil).toBeGreaterThan(0.05);
		expect(pencil).toBeLessThan(0.2);
		const ballpoint = left('ballpoint', mark('ballpoint'), rub);
		expect(ballpoint).toBeGreaterThan(0.6);
		expect(ballpoint).toBeLessThan(0.85);
		expect(left('felt', mark('felt'), rub)).toBeGreaterThan(0.9);
	});

	it('takes more with every pass', () => {
		const once = left('ballpoint', mark('ballpoint'), rub);
		expect(left('ballpoint', mark('ballpoint'), rub, rub)).toBeLessThan(once);
	});

	it('leaves ink that is drawn after it as it is', () => {
		expect(left('pencil', rub, mark('pencil'))).toBe(1);
	});
});

describe('texture is the same at every target', () => {
	// VVSG 2.0, 1.1.6-J: the same mark gives the same result in every target and on every page.
	const [widthPx, heightPx] = [50, 25];
	const anyMark = fc.array(
		fc.record({
			tool: fc.constantFrom(...PENS, 'eraser' as const),
			points: fc.array(
				fc.tuple(fc.double({ min: -4, max: 22, noNaN: true }), fc.double({ min: -4, max: 13, noNaN: true })),
				{ minLength: 1, maxLength: 6 }
			)
		}),
		{ minLength: 1, maxLength: 4 }
	);
	const targets = [targetAt(20, 30), targetAt(233, 31), targetAt(101, 157), targetAt(250, 190)];

	const moved = (strokes: readonly Stroke[], { x, y }: Box): Stroke[] =>
		strokes.map((stroke) => ({
			...stroke,
			points: stroke.points.map(([dx, dy]): [number, number] => [x + dx, y + dy])
		}));

	function pixelsAt(image: GreyImage, { x, y }: Box): number[] {
		const [left, top] = [Math.round(x * PX_PER_PT), Math.round(y * PX_PER_PT)];
		return Array.from(
			{ length: widthPx * heightPx },
			(_, i) => image.data[(top + Math.floor(i / widthPx)) * image.width + left + (i % widthPx)]!
		);
	}

	it('to the byte, for any mark in any ink', () => {
		fc.assert(
			fc.property(anyMark, (mark) => {
				const [first, ...others] = targets.map((target) =>
					pixelsAt(inkPage(blank(), page(moved(mark, target)), targets), target)
				);
				for (const other of others) expect(other.join()).toBe(first!.join());
			}),
			{ numRuns: 50 }
		);
	});

	it('and another seed gives another texture', () => {
		const ink = page(moved([line('pencil', [2, 4], [16, 5])], targets[0]!));
		const one = inkPage(blank(), ink, targets, undefined, { seed: 1 });
		expect(alike(inkPage(blank(), ink, targets, undefined, { seed: 2 }), one)).toBe(false);
		expect(alike(inkPage(blank(), ink, targets, undefined, { seed: 1 }), one)).toBe(true);
	});
});

describe('coordinates', () => {
	it.each([NaN, Infinity, -Infinity, 1e9])('that are %s are refused with what to do', (bad) => {
		expect(() => inkPage(blank(), page([line('pencil', [10, 10], [bad, 10])]), [])).toThrow(/got \(.*checkInk/);
	});
	it('partly off the page are cut off at its edge', () => {
		const image = inkPage(blank(), page([line('felt', [-5000, 30], [9000, 31])]), []);
		expect(image.data[Math.round(30 * PX_PER_PT) * SIZE.width]).toBeLessThan(60);
	});
});
