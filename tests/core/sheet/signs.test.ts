import { describe, expect, test } from 'vitest';
import { encodeCode } from '../../../src/codes/encodeCode';
import { county, fair } from '../../../src/core/election/demo';
import { grow, overlaps, type Box } from '../../../src/core/geometry';
import { DROP, RISE } from '../../../src/core/layout/sizes';
import { widthOf } from '../../../src/core/layout/font/measure';
import { layOut } from '../../../src/core/layout/layOutBallot';
import { drawSheet } from '../../../src/core/sheet/drawSheet';
import { CODE, CORNER_RADIUS_PT, cornersOf } from '../../../src/core/sheet/signs';
import { wordsOf } from '../../../src/cli/files';

const layouts = [county, fair].flatMap((election) =>
	election.styles.flatMap(({ id }) =>
		(
			[
				[['en'], 'ordinary'],
				[['es'], 'ordinary'],
				[['en', 'es'], 'ordinary'],
				[['en'], 'large'],
				[['es'], 'large']
			] as const
		).map(([languages, printSize]) => layOut(election, id, wordsOf(['en', 'es']), languages, printSize))
	)
);

/** Three modules of quiet paper around a code of 29 to a side. */
const quietCode: Box = grow(
	{ x: CODE.rightPt - CODE.sizePt, y: CODE.topPt, width: CODE.sizePt, height: CODE.sizePt },
	(3 * CODE.sizePt) / 29
);

describe('the signs of a practice sheet', () => {
	test('stand clear of everything printed, of each other and of what a printer cannot reach', () => {
		for (const { pages } of layouts)
			for (const page of pages) {
				const printed: Box[] = [
					...page.texts.map(({ text, x, y, sizePt, weight, spacingPt }) => ({
						x,
						y: y - RISE * sizePt,
						width: widthOf(text, weight, sizePt, spacingPt),
						height: (RISE + DROP) * sizePt
					})),
					...page.rules.map(({ x1, y1, x2, y2, widthPt }) =>
						grow({ x: x1, y: y1, width: x2 - x1, height: y2 - y1 }, widthPt / 2)
					),
					...page.choices.map(({ row }) => row)
				];
				const corners = cornersOf(page).map(({ x, y }) => grow({ x, y, width: 0, height: 0 }, CORNER_RADIUS_PT));
				for (const sign of [quietCode, ...corners.map((corner) => grow(corner, 2))])
					expect(printed.filter((box) => overlaps(box, sign))).toEqual([]);
				for (const corner of corners) expect(overlaps(corner, quietCode)).toBe(false);
				for (const { x, y, width, height } of corners) {
					expect(Math.min(x, y)).toBeGreaterThanOrEqual(18);
					expect(x + width).toBeLessThanOrEqual(page.widthPt - 18);
					expect(y + height).toBeLessThanOrEqual(page.heightPt - 18);
				}
			}
	});
});

describe('a drawn sheet', () => {
	const [layout] = layouts;

	test('says in each language that it is practice and stays at home, as text', () => {
		for (const [languages, words] of [
			[['en'], ['PRACTICE', 'NOT A BALLOT', 'Keep this at home. Do not return it.']],
			[['es'], ['PRÁCTICA', 'NO ES UNA BOLETA', 'Guarde esta hoja en casa.']]
		] as const) {
			const own = layOut(county, county.styles[0]!.id, wordsOf(['en', 'es']), languages);
			for (const { page } of own.pages) {
				const texts = [...drawSheet(own, page, encodeCode).matchAll(/<text[^>]*>([^<]*)</g)].map(([, text]) => text);
				for (const word of words) expect(texts.some((text) => text?.includes(word))).toBe(true);
			}
		}
	});

	test('keeps the page whole and in the middle on A4', () => {
		const [, x, y, width, height] = /viewBox="(\S+) (\S+) (\S+) (\S+)"/
			.exec(drawSheet(layout!, 1, encodeCode, { paper: 'a4' }))!
			.map(Number);
		expect(width! / height!).toBeCloseTo(210 / 297, 3);
		expect(x!).toBeLessThanOrEqual(0.001);
		expect(x! + width!).toBeGreaterThanOrEqual(611.999);
		expect(y!).toBeLessThan(0);
		expect(y! + height! / 2).toBeCloseTo(396, 1);
	});

	test('has no colour at all for a printer without', () => {
		const colours = new Set(
			[...drawSheet(layout!, 1, encodeCode, { blackAndWhite: true }).matchAll(/(?:fill|stroke)="(#[0-9a-f]+)"/gi)].map(
				([, colour]) => colour
			)
		);
		expect([...colours].sort()).toEqual(['#000000', '#ffffff']);
	});
});
