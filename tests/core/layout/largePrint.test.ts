import fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';
import { county, fair } from '$core/election/demo';
import type { Election } from '$core/election/election';
import { layOut } from '$core/layout/layOutBallot';
import type { Layout } from '$core/layout/layout';
import { problemsOf } from './problemsOf';
import { elections, SHAPES, SIDES, withTargets, words } from './sheets';

// Many sheets in one test: slow where other work shares the processor.
vi.setConfig({ testTimeout: 60_000 });

const large = (election: Election, style: string, languages: readonly string[]): Layout =>
	layOut(election, style, words, languages, 'large');

const sheets = [county, fair].flatMap((election) =>
	election.styles.flatMap(({ id }) => [['en'], ['es']].map((languages) => ({ election, style: id, languages })))
);

/** What a voter reads: all but the small words of the band, which the foot of each page says in full size. */
const readTexts = ({ pages }: Layout) =>
	pages.flatMap(({ texts, contests }) =>
		texts.filter(
			({ role, y }) => role !== 'practice' || !contests.some(({ box }) => y > box.y && y < box.y + box.height)
		)
	);

describe('large print', () => {
	test.each(SHAPES.flatMap((shape) => SIDES.map((side) => ({ shape, side }))))(
		'keeps every rule of the sheet: $shape on the $side',
		({ shape, side }) => {
			for (const { election, style, languages } of sheets) {
				const changed = withTargets(election, shape, side, 2);
				expect(problemsOf(large(changed, style, languages), changed), `${style} ${languages.join()}`).toEqual([]);
			}
		}
	);

	test('keeps them for ranked contests', () => {
		const ranked: Election = {
			...county,
			// More choices than these, ranked, fill more than a page of this size.
			contests: county.contests.map((contest) =>
				contest.choices.length > 5 ? contest : { ...contest, kind: 'ranked' as const, ranks: 3 }
			)
		};
		expect(ranked.contests.filter(({ kind }) => kind === 'ranked').length).toBeGreaterThan(5);
		for (const { id } of ranked.styles)
			for (const languages of [['en'], ['es']]) expect(problemsOf(large(ranked, id, languages), ranked)).toEqual([]);
	});

	test('keeps them for any election whose contests fit a page, and names those that do not', () => {
		let [laidOut, all] = [0, 0];
		fc.assert(
			fc.property(elections, fc.constantFrom(['en'], ['es'], ['en', 'es']), (election, languages) => {
				all += 1;
				let layout: Layout;
				try {
					layout = large(election, 'all', languages);
				} catch (error) {
					expect(String(error)).toMatch(/RangeError: layOut: expected every contest to fit .* contest-\d/);
					return;
				}
				laidOut += 1;
				expect(problemsOf(layout, election)).toEqual([]);
			}),
			{ numRuns: 60 }
		);
		expect(laidOut / all).toBeGreaterThan(0.5);
	});

	test('has nothing to read under 18 points, in one column, with PRACTICE in full size on every page', () => {
		for (const { election, style, languages } of sheets) {
			const layout = large(election, style, languages);
			expect(Math.min(...readTexts(layout).map(({ sizePt }) => sizePt))).toBeGreaterThanOrEqual(18);
			for (const { contests, texts, widthPt } of layout.pages) {
				expect(contests.every(({ box }) => box.width > 0.8 * widthPt)).toBe(true);
				expect(texts.some(({ role, sizePt }) => role === 'practice' && sizePt >= 18)).toBe(true);
			}
		}
		expect(Math.min(...readTexts(layOut(county, 'ferrystead', words)).map(({ sizePt }) => sizePt))).toBeLessThan(18);
	});

	test('has the targets of ordinary print in the same size, in the same order, on more pages', () => {
		for (const { election, style, languages } of sheets) {
			const [ordinary, enlarged] = [layOut(election, style, words, languages), large(election, style, languages)];
			const targets = ({ pages }: Layout) =>
				pages.flatMap(({ choices }) =>
					choices.map(({ contest, choice, rank, target: { width, height } }) => [contest, choice, rank, width, height])
				);
			expect(targets(enlarged)).toEqual(targets(ordinary));
			expect(enlarged.pages.length).toBeGreaterThan(ordinary.pages.length);
			expect([ordinary.printSize, enlarged.printSize]).toEqual(['ordinary', 'large']);
		}
	});

	test('gives the same numbers twice', () => {
		const once = JSON.stringify(large(county, 'ferrystead', ['es']));
		expect(JSON.stringify(large(structuredClone(county), 'ferrystead', ['es']))).toBe(once);
	});

	test('names the contests that are too tall in two languages and says to print one at a time', () => {
		expect(() => large(county, 'ferrystead', ['en', 'es'])).toThrow(
			/expected every contest to fit a page, .*: treasurer, .*print one language at a time/
		);
	});
});
