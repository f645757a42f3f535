import { describe, expect, test } from 'vitest';
import { encodeCode } from '../../../src/codes/encodeCode';
import { county, fair } from '../../../src/core/election/demo';
import { layOut } from '../../../src/core/layout/layOutBallot';
import { PhotoSheets } from '$core/photo/photoSheets';
import type { Rulebook } from '../../../src/core/rules/rule';
import demoCounty from '../../../src/core/rules/sets/demo-county.json' with { type: 'json' };
import { printSheet } from '../../../src/core/sheet/printSheet';
import { parseSheetCode, sheetCodeOf, writeSheetCode } from '../../../src/core/sheet/sheetCode';
import { wordsOf } from '../../../src/cli/files';

const words = wordsOf(county.languages);
const setup = { elections: [county, fair], words, rulebook: demoCounty as unknown as Rulebook };

/** Sheets whose photos are never looked at: only what a code names is asked for. */
const sheets = () => new PhotoSheets(setup, { encode: encodeCode, decode: () => undefined });

const layout = layOut(county, county.styles[0]!.id, words, ['en', 'es']);
const code = parseSheetCode(writeSheetCode(sheetCodeOf(layout, 1)))!;

describe('the sheets that codes name', () => {
	test('are printed as they were for paper, page by page', () => {
		const own = sheets();
		const pages = layout.pages.map(({ page }) => own.sheetOf({ ...code, page })!);
		pages.forEach(({ version, prints }, i) => {
			expect(version).toBe(code.version);
			const paper = printSheet(layout, i + 1, encodeCode);
			expect(Buffer.compare(prints[0]!.data, paper.data)).toBe(0);
			// The coarsest pass over a photo looks at an eighth of the page.
			expect(prints.map(({ width }) => width)).toEqual([1, 2, 4, 8].map((part) => Math.floor(paper.width / part)));
		});
		const { election, prints } = own.openOf(code);
		expect([election.id, prints.length]).toEqual([county.id, pages.length]);
		expect(prints[0] === pages[0]!.prints[0]).toBe(true);
	});

	test('are printed once, whichever of their pages is asked for first', () => {
		const own = sheets();
		const second = own.sheetOf({ ...code, page: 2 });
		const open = own.openOf(code);
		// Compared so, because a failure would else print whole pages.
		expect(own.sheetOf({ ...code, page: 2 }) === second).toBe(true);
		expect(own.openOf({ ...code, page: 2 }) === open).toBe(true);
		expect(own.openOf({ ...code, languages: ['en'] }) === open).toBe(false);
	});

	test('are others for another style and in large print, though their codes differ in nothing else', () => {
		const own = sheets();
		const english = { ...code, languages: ['en'] };
		const open = own.openOf(english);
		const large = own.openOf({ ...english, printSize: 'large' });
		expect([open.layout.printSize, large.layout.printSize]).toEqual(['ordinary', 'large']);
		const style = county.styles[1]!.id;
		expect([open.layout.style, own.openOf({ ...english, style }).layout.style]).toEqual([code.style, style]);
	});

	test('are found for an election whose language tags have capital letters, which codes have not', () => {
		const languages = ['en', 'zh-Hant'];
		const election = { ...county, languages };
		const own = new PhotoSheets(
			{ ...setup, elections: [election], words: { ...words, 'zh-Hant': words['en']! } },
			{ encode: encodeCode, decode: () => undefined }
		);
		expect(own.openOf({ ...code, languages: ['zh-hant'] }).layout.languages).toEqual(['zh-Hant']);
	});

	test.each([
		['of an election that is not there', { election: 'nowhere' }],
		['of a style that is not there', { style: 'nowhere' }],
		['in a language that is not there', { languages: ['fr'] }],
		['in more than two languages', { languages: ['en', 'es', 'en'] }],
		['in large print and two languages, which no page holds', { printSize: 'large' as const }]
	])('are none %s', (_, other) => {
		expect(sheets().sheetOf({ ...code, ...other })).toBeUndefined();
		expect(() => sheets().openOf({ ...code, ...other })).toThrow('expected a sheet of these elections');
	});

	test('are none for a page that the ballot has not', () => {
		expect(sheets().sheetOf({ ...code, page: layout.pages.length + 1 }) === undefined).toBe(true);
	});
});
