import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import { county, fair } from '$core/election/demo';
import type { Election } from '$core/election/election';
import { layOut } from '$core/layout/layOutBallot';
import type { ChoiceLayout, Layout } from '$core/layout/layout';
import { problemsOf } from './problemsOf';
import { candidate, contestOf, electionOf, elections, LANGUAGES, SHAPES, SIDES, withTargets, words } from './sheets';

// Many sheets in one test: slow where other work shares the processor.
vi.setConfig({ testTimeout: 60_000 });

const sheets = [county, fair].flatMap((election) =>
	SHAPES.flatMap((shape) =>
		SIDES.flatMap((side) =>
			([2, 3] as const).map((columns) => ({
				id: election.id,
				shape,
				side,
				columns,
				election: withTargets(election, shape, side, columns)
			}))
		)
	)
);

describe('layOut', () => {
	it.each(sheets)('keeps every rule of the sheet: $id, $shape on the $side, $columns columns', ({ election }) => {
		for (const { id } of election.styles)
			for (const languages of LANGUAGES) {
				expect(problemsOf(layOut(election, id, words, languages), election), `${id} ${languages.join()}`).toEqual([]);
			}
	});

	it('keeps them for ranked contests, beside the names or, in a narrow column, under them', () => {
		const ranked = (election: Election): Election => ({
			...election,
			contests: election.contests.map((contest) => ({ ...contest, kind: 'ranked' as const, ranks: 3 }))
		});
		for (const { election } of sheets) {
			const changed = ranked(election);
			const { id } = changed.styles[0]!;
			expect(problemsOf(layOut(changed, id, words, ['en', 'es']), changed)).toEqual([]);
		}
	});

	it('keeps them for any election', () => {
		fc.assert(
			fc.property(elections, fc.constantFrom(...LANGUAGES), (election, languages) => {
				expect(problemsOf(layOut(election, 'all', words, languages), election)).toEqual([]);
			}),
			{ numRuns: 60 }
		);
	});

	it('gives the same numbers twice and changes nothing it is given', () => {
		const frozen = deepFreeze(structuredClone(county));
		for (const { id } of county.styles) {
			const once = JSON.stringify(layOut(frozen, id, words, ['en', 'es']));
			expect(JSON.stringify(layOut(structuredClone(county), id, words, ['en', 'es']))).toBe(once);
		}
	});

	it('prints the main language alone unless told otherwise', () => {
		const layout = layOut(county, county.styles[0]!.id, words);
		expect(layout.languages).toEqual(['en']);
		expect(new Set(layout.pages.flatMap(({ texts }) => texts.map(({ language }) => language)))).toEqual(
			new Set(['en'])
		);
	});

	it('fits twelve contests on two pages', () => {
		const [style] = county.styles;
		const twelve = { ...county, styles: [{ ...style!, contests: style!.contests.slice(0, 12) }] };
		expect(twelve.styles[0]!.contests).toHaveLength(12);
		expect(layOut(twelve, style!.id, words).pages).toHaveLength(2);
	});

	it('prints the legal label, the practice note, the primary notice and the page on the sheet', () => {
		const layout = layOut(county, county.styles[0]!.id, words);
		const whole = layout.pages.map(({ texts }) => texts.map(({ text }) => text).join(' '));
		for (const [i, page] of whole.entries()) {
			expect(page).toContain(county.page.legalLabel!['en']);
			expect(page).toContain(words['en']!.keep);
			expect(page).toContain(`Page ${i + 1} of ${whole.length}`);
		}
		expect(whole.join(' ').split(county.primaryRule!.notice['en']!)).toHaveLength(2);
	});

	it('takes wider columns where a contest is too tall for those asked for', () => {
		const text = { en: 'Shall the county do all of this? '.repeat(70), es: 'x' };
		const long = contestOf('long', [candidate('yes', 'Yes')], { kind: 'measure', text });
		const widths = ([2, 3] as const).map((columns) => {
			const election = electionOf([contestOf('a', [candidate('b', 'Bo')]), long], {
				page: { ...county.page, columns }
			});
			const layout = layOut(election, 'all', words);
			expect(problemsOf(layout, election)).toEqual([]);
			return layout.pages[0]!.contests[0]!.box.width;
		});
		expect(widths).toEqual([252, 252]);
	});

	it('names every contest that no page can hold, all at once', () => {
		const many = Array.from({ length: 60 }, (_, i) => candidate(`c${i}`, `Candidate ${i}`));
		const election = electionOf([
			contestOf('long', many),
			contestOf('short', many.slice(0, 3)),
			contestOf('too', many)
		]);
		expect(() => layOut(election, 'all', words)).toThrow(/do not: long, too; shorten/);
	});

	it('refuses a language without words, one the election does not have, and three at once', () => {
		expect(() => layOut(county, county.styles[0]!.id, { en: words['en']! }, ['es'])).toThrow(/printed words in "es"/);
		expect(() => layOut(county, county.styles[0]!.id, words, ['fr'])).toThrow(/got "fr"/);
		expect(() => layOut(county, county.styles[0]!.id, words, ['en', 'es', 'en'])).toThrow(/one or two/);
	});
});

describe('the rules of the sheet', () => {
	const layout = layOut(county, county.styles[0]!.id, words);
	const changed = (change: (choice: ChoiceLayout, all: readonly ChoiceLayout[]) => ChoiceLayout): Layout => ({
		...layout,
		pages: layout.pages.map((page, i) =>
			i > 0
				? page
				: { ...page, choices: page.choices.map((choice, j) => (j === 2 ? change(choice, page.choices) : choice)) }
		)
	});
	const moved = (dx: number, dy: number) =>
		changed((choice) => ({
			...choice,
			row: { ...choice.row, x: choice.row.x + dx, y: choice.row.y + dy },
			target: { ...choice.target, x: choice.target.x + dx, y: choice.target.y + dy },
			name: { ...choice.name, x: choice.name.x + dx, y: choice.name.y + dy }
		}));
	const fold = layout.pages[0]!.foldsPt[0]!;

	it.each([
		['a target off the grid', moved(0.1, 0), /off the grid/],
		['a row on a fold', moved(0, fold - layout.pages[0]!.choices[2]!.target.y), /crosses the fold/],
		['a row on another', moved(0, 15), /rows overlap/],
		['a row on its heading', moved(0, -25), /heading of|PRACTICE within/],
		[
			'a choice left out',
			{ ...layout, pages: layout.pages.map((p) => ({ ...p, choices: p.choices.slice(1) })) },
			/choices: expected/
		],
		['a page left out', { ...layout, pages: layout.pages.slice(0, 1) }, /contests: got/],
		[
			'text out of its column',
			{
				...layout,
				pages: layout.pages.map((p) => ({ ...p, texts: p.texts.map((t) => ({ ...t, sizePt: t.sizePt * 2 })) }))
			},
			/outside the column|" on "/
		],
		[
			'a missing band',
			{ ...layout, pages: layout.pages.map((p) => ({ ...p, texts: p.texts.filter((t) => t.role !== 'practice') })) },
			/no practice band/
		]
	])('notice %s', (_, broken, problem) => {
		expect(problemsOf(broken, county).join('\n')).toMatch(problem);
	});
});

function deepFreeze<T>(value: T): T {
	if (typeof value === 'object' && value !== null)
		for (const inner of Object.values(Object.freeze(value))) deepFreeze(inner);
	return value;
}
