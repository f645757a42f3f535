import { describe, expect, it } from 'vitest';
import { PX_PER_PT } from '$core/image';
import { glyphOf } from '$core/layout/font/glyph';
import type { ChoiceLayout, Layout, PageLayout, TextLine } from '$core/layout/layout';
import { ARROW_HEAD_PT, ARROW_TAIL_PT } from '$core/layout/targetOutline';
import { PAPER_WHITE, PRINT_BLACK, printPage } from '$core/page/printPage';

const box = { x: 0, y: 0, width: 1, height: 1 };
const choiceAt = (xPx: number, yPx: number): ChoiceLayout => ({
	contest: 'c',
	choice: `${xPx}`,
	row: box,
	name: box,
	target: { x: xPx / PX_PER_PT, y: yPx / PX_PER_PT, width: 18, height: 9 }
});

function layout(part: Partial<PageLayout>, shape: Layout['shape'] = 'oval'): Layout {
	return {
		election: 'e',
		style: 's',
		languages: ['en'],
		shape,
		side: 'left',
		printSize: 'ordinary',
		pages: [
			{ page: 1, widthPt: 612, heightPt: 792, foldsPt: [], contests: [], choices: [], texts: [], rules: [], ...part }
		]
	};
}

const text = (words: string, sizePt: number, weight: TextLine['weight'] = 'regular'): TextLine => ({
	text: words,
	x: 50.3,
	y: 100.7,
	sizePt,
	weight,
	spacingPt: 0.5,
	language: 'en',
	role: 'name'
});

/** Ink on the page in square pixels of full black. */
function inkPx(of: Layout): number {
	let sum = 0;
	for (const grey of printPage(of, 1).data) sum += PAPER_WHITE - grey;
	return sum / (PAPER_WHITE - PRINT_BLACK);
}

describe('the printed page', () => {
	it('is a letter page of 1700 by 2200 pixels, white where nothing is printed', () => {
		const image = printPage(layout({}), 1);
		expect([image.width, image.height]).toEqual([1700, 2200]);
		expect(image.data.every((grey) => grey === PAPER_WHITE)).toBe(true);
	});

	it.each([
		['A modest name, 1897', 10, 'regular'],
		['Vote for one', 12.5, 'bold'],
		['ñÁü¿ & judges', 24, 'regular']
	] as const)('inks %s at %d pt as much as its outlines enclose', (words, sizePt, weight) => {
		// Holes wind against their outer contour, so the signed areas of a glyph's contours add up to its ink.
		const enclosed = Array.from(words).reduce((sum, character) => {
			const signed = glyphOf(character, weight).contours.reduce((inner, contour) => {
				let twice = 0;
				for (let i = 0; i < contour.length; i += 2) {
					const j = (i + 2) % contour.length;
					twice += contour[i]! * contour[j + 1]! - contour[j]! * contour[i + 1]!;
				}
				return inner + twice / 2;
			}, 0);
			return sum + Math.abs(signed);
		}, 0);
		const expected = enclosed * (sizePt * PX_PER_PT) ** 2;
		expect(Math.abs(inkPx(layout({ texts: [text(words, sizePt, weight)] })) / expected - 1)).toBeLessThan(0.015);
	});

	it('prints text where the layout has it: on its baseline, from its start', () => {
		const image = printPage(layout({ texts: [text('H', 30)] }), 1);
		const dark = (x: number, y: number) => image.data[y * image.width + x]! < 200;
		let [left, right, top, bottom] = [9999, 0, 9999, 0];
		for (let y = 0; y < image.height; y++)
			for (let x = 0; x < image.width; x++)
				if (dark(x, y)) [left, right, top, bottom] = [Math.min(left, x), Math.max(right, x), Math.min(top, y), y];
		expect(bottom + 1).toBeCloseTo(100.7 * PX_PER_PT, -0.3);
		expect(left).toBeGreaterThan(50.3 * PX_PER_PT);
		expect(right).toBeLessThan((50.3 + 30 * glyphOf('H', 'regular').advanceEm) * PX_PER_PT);
		expect(top).toBeLessThan(bottom - 0.6 * 30 * PX_PER_PT);
	});

	it('prints a rule as long and as wide as the layout has it', () => {
		const rule = { x1: 40, y1: 60, x2: 240, y2: 60, widthPt: 0.8, role: 'write-in' as const };
		expect(inkPx(layout({ rules: [rule] })) / (200 * 0.8 * PX_PER_PT ** 2)).toBeCloseTo(1, 1);
	});

	it.each(['oval', 'box', 'arrow'] as const)('prints every %s the same to the byte', (shape) => {
		const spots = [
			[200, 300],
			[871, 301],
			[1203, 1777],
			[433, 2000]
		] as const;
		const image = printPage(layout({ choices: spots.map(([x, y]) => choiceAt(x, y)) }, shape), 1);
		const aside = Math.ceil(Math.max(ARROW_TAIL_PT, ARROW_HEAD_PT) * PX_PER_PT);
		const [first, ...others] = spots.map(([x, y]) =>
			Array.from({ length: 45 }, (_, row) =>
				Array.from(image.data.subarray((y - 10 + row) * 1700 + x - aside, (y - 10 + row) * 1700 + x + 50 + aside))
			)
		);
		expect(first!.flat().some((grey) => grey < 100)).toBe(true);
		for (const other of others) expect(other).toEqual(first);
	});

	it('leaves the inside of an oval white', () => {
		const image = printPage(layout({ choices: [choiceAt(200, 300)] }), 1);
		expect(image.data[312 * 1700 + 225]).toBe(PAPER_WHITE);
		expect(image.data[312 * 1700 + 201]).toBeLessThan(60);
	});

	it('is refused for a page the layout does not have', () => {
		expect(() => printPage(layout({}), 2)).toThrow('expected a page from 1 to 1, got 2');
	});
});
