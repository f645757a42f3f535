import { describe, expect, test } from 'vitest';
import { county, fair } from '../../../src/core/election/demo';
import { layOut } from '../../../src/core/layout/layOutBallot';
import type { Rulebook } from '../../../src/core/rules/rule';
import demoCounty from '../../../src/core/rules/sets/demo-county.json' with { type: 'json' };
import { printSheet } from '../../../src/core/sheet/printSheet';
import { decodeCode } from '../../../src/codes/decodeCode';
import { encodeCode } from '../../../src/codes/encodeCode';
import { wordsOf } from '../../../src/cli/files';
import { PhotoSheets } from '$core/photo/photoSheets';
import { readPhoto, type ReadBallot, type Step } from '$lib/photo/readPhoto';
import { markedSheet, readFlat } from '../../support/photoCase';

const rulebook = demoCounty as unknown as Rulebook;
const words = wordsOf(county.languages);
const codes = { encode: encodeCode, decode: decodeCode };
const sheets = new PhotoSheets({ elections: [county, fair], words, rulebook }, codes);

/** Seeds of two marked sheets of the same ballot, one of each page. */
const [one, two] = [markedSheet(4), markedSheet(5)];

function isRead(result: ReturnType<typeof readPhoto>): ReadBallot {
	if ('refused' in result) throw new Error(`expected a reading, got ${result.refused}`);
	return result;
}

const of = (election: typeof county, style: string, languages: readonly string[]) =>
	printSheet(layOut(election, style, words, languages), 1, encodeCode);

describe('readPhoto', () => {
	test('reads what the reader finds on the flat page, and tells its steps in order', () => {
		const steps: Step[] = [];
		const result = isRead(readPhoto(one.flat, sheets, undefined, (step) => steps.push(step)));
		expect(steps).toEqual(['find', 'flatten', 'read']);
		expect(result.page).toBe(one.page);
		const flat = readFlat(one.flat, one.page);
		const levels = result.seen.pages[0]!.targets.map(({ level }) => level);
		const others = flat.targets.filter(({ level }, i) => level !== levels[i]);
		expect(levels).toHaveLength(flat.targets.length);
		expect(levels.filter((level) => level === 'dark').length).toBeGreaterThan(2);
		// One near a threshold may come out on its other side; none goes from dark to empty or back.
		expect(others.length).toBeLessThanOrEqual(1);
		for (const target of others) expect([target.level, levels[flat.targets.indexOf(target)]]).toContain('unsure');
		expect(result.contests.length).toBeGreaterThan(2);
		expect(result.contests.every(({ people }) => Array.isArray(people.trace))).toBe(true);
	});

	test('adds the other page of the same ballot, and takes a page again', () => {
		const first = isRead(readPhoto(two.flat, sheets, undefined));
		const both = isRead(readPhoto(one.flat, sheets, first.seen));
		expect(both.seen.pages.map(({ page }) => page)).toEqual([1, 2]);
		expect(both.contests.length).toBeGreaterThan(first.contests.length);
		const again = isRead(readPhoto(markedSheet(6).flat, sheets, both.seen));
		expect(again.seen.pages.map(({ page }) => page)).toEqual([1, 2]);
		const ids = again.seen.pages.flatMap(({ marks }) => marks.map(({ id }) => id));
		expect(new Set(ids).size).toBe(ids.length);
	});

	test('reads the fun ballot too, and does not mix two ballots', () => {
		const pie = of(fair, fair.styles[0]!.id, ['en']);
		expect(isRead(readPhoto(pie, sheets, undefined)).seen.election).toBe(fair.id);
		const first = isRead(readPhoto(one.flat, sheets, undefined));
		expect(readPhoto(pie, sheets, first.seen)).toMatchObject({ refused: 'other-ballot', code: { election: fair.id } });
		const spanish = of(county, county.styles[0]!.id, ['es']);
		expect(readPhoto(spanish, sheets, first.seen)).toMatchObject({ refused: 'other-ballot' });
	});

	test('refuses another election and an older layout, and says which', () => {
		const only = new PhotoSheets({ elections: [fair], words, rulebook }, codes);
		expect(readPhoto(one.flat, only, undefined)).toMatchObject({
			refused: 'other-election',
			code: { election: county.id, style: county.styles[0]!.id }
		});
		const { target } = county;
		const before = { ...county, target: { ...target, widthPt: target.widthPt + 2 } };
		expect(readPhoto(of(before, county.styles[0]!.id, ['en']), sheets, undefined)).toMatchObject({
			refused: 'other-layout',
			code: { page: 1 }
		});
	});
});
