import { describe, expect, test } from 'vitest';
import { decodeCode } from '../../../src/codes/decodeCode';
import { encodeCode } from '../../../src/codes/encodeCode';
import { county, fair } from '../../../src/core/election/demo';
import { layOut } from '../../../src/core/layout/layOutBallot';
import { printSheet } from '../../../src/core/sheet/printSheet';
import { parseSheetCode, sheetCodeOf, writeSheetCode } from '../../../src/core/sheet/sheetCode';
import { CODE } from '../../../src/core/sheet/signs';
import { PX_PER_PT } from '../../../src/core/image';
import { wordsOf } from '../../../src/cli/files';

const layouts = [county, fair].flatMap((election) =>
	election.styles.flatMap(({ id }) =>
		(
			[
				[['en'], 'ordinary'],
				[['es', 'en'], 'ordinary'],
				[['en'], 'large']
			] as const
		).map(([languages, printSize]) => layOut(election, id, wordsOf(['en', 'es']), languages, printSize))
	)
);

describe('the code on a practice sheet', () => {
	test('says which page of which layout it is, and is read back from the printed page', () => {
		for (const layout of layouts.slice(0, 3))
			for (const { page } of layout.pages) {
				const code = sheetCodeOf(layout, page);
				const found = decodeCode(printSheet(layout, page, encodeCode));
				expect(parseSheetCode(found?.text ?? '')).toEqual(code);
				const [corner] = found!.corners;
				expect(Math.abs(corner!.x / PX_PER_PT - (CODE.rightPt - CODE.sizePt))).toBeLessThan(1);
				expect(Math.abs(corner!.y / PX_PER_PT - CODE.topPt)).toBeLessThan(1);
			}
	});

	test('is another for every election, style, page, set of languages and size of print', () => {
		const texts = layouts.flatMap((layout) =>
			layout.pages.map(({ page }) => writeSheetCode(sheetCodeOf(layout, page)))
		);
		expect(new Set(texts).size).toBe(texts.length);
	});

	test('of a sheet from before there was large print still says the same', () => {
		const code = { election: 'demo', style: 'style', page: 2, languages: ['en', 'es'], version: 'ABC' };
		expect(parseSheetCode('FAIRHAND1/DEMO/STYLE/2/EN+ES/ABC')).toEqual({ ...code, printSize: 'ordinary' });
		expect(parseSheetCode('FAIRHAND1/DEMO/STYLE/2L/EN+ES/ABC')).toEqual({ ...code, printSize: 'large' });
		expect(writeSheetCode({ ...code, printSize: 'ordinary' })).toBe('FAIRHAND1/DEMO/STYLE/2/EN+ES/ABC');
	});

	test('changes when a name is another or a target moves by a tenth of a point', () => {
		const [layout] = layouts;
		const [first, ...pages] = layout!.pages;
		const changed = (by: Partial<typeof first>) => ({ ...layout!, pages: [{ ...first!, ...by }, ...pages] });
		const moved = first!.choices.map((choice, i) =>
			i === 0 ? { ...choice, target: { ...choice.target, x: choice.target.x + 0.1 } } : choice
		);
		const renamed = first!.texts.map((line, i) => (i === 3 ? { ...line, text: `${line.text}.` } : line));
		const versions = [layout!, changed({ choices: moved }), changed({ texts: renamed })].map(
			(one) => sheetCodeOf(one, 1).version
		);
		expect(new Set(versions).size).toBe(3);
		expect(sheetCodeOf(changed({}), 1).version).toBe(versions[0]);
	});

	test.each([
		'',
		'https://example.org',
		'FAIRHAND1/DEMO/STYLE/0/EN/ABC',
		'FAIRHAND2/DEMO/STYLE/1/EN/ABC',
		'FAIRHAND1/DEMO/STYLE/1X/EN/ABC',
		'FAIRHAND1/DEMO/STYLE/L/EN/ABC',
		'FAIRHAND1/DEMO/STYLE/1/EN/ABC/MORE',
		'fairhand1/demo/style/1/en/abc',
		'XFAIRHAND1/DEMO/STYLE/1/EN/ABC'
	])('is not ours when it says "%s"', (text) => {
		expect(parseSheetCode(text)).toBeUndefined();
	});

	test('throws for a page that the layout has not', () => {
		expect(() => sheetCodeOf(layouts[0]!, 99)).toThrow(RangeError);
	});
});
