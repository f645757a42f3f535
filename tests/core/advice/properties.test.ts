import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { headline } from '$core/advice/headline';
import { machineSays } from '$core/advice/machineSays';
import { peopleSay } from '$core/advice/peopleSay';
import type { Sentence } from '$core/advice/sentence';
import { county } from '$core/election/demo';
import { CORRECTION_METHODS } from '$core/election/checkInstructions';
import type { Election, TargetShape, TargetSide } from '$core/election/election';
import { MARK_KINDS, MARK_PLACES, type TargetLevel } from '$core/marks/mark';
import type { Looks, PeopleOutcome } from '$core/reading/statement';
import en from '$locales/en.json';
import es from '$locales/es.json';
import { adviseOn, contestOf } from './support';

const OUTCOMES: readonly PeopleOutcome[] = [
	'vote',
	'no-vote',
	'undervote',
	'overvote',
	'blank',
	'refer',
	'silent',
	'void-contest',
	'void-ballot',
	'duplicate'
];
const LOOKS: readonly Looks[] = ['always', 'set-aside', 'over-or-under', 'never'];
const LEVELS: readonly TargetLevel[] = ['dark', 'unsure', 'empty'];
const CONTESTS = ['treasurer', 'commissioners', 'measure-1', 'judge-retention', 'senate-lantern'];

const anyElection: fc.Arbitrary<Election> = fc
	.record({
		method: fc.constantFrom(...CORRECTION_METHODS),
		shape: fc.constantFrom<TargetShape>('oval', 'box', 'arrow'),
		side: fc.constantFrom<TargetSide>('left', 'right')
	})
	.map(({ method, shape, side }) => ({
		...county,
		target: { ...county.target, shape, side },
		instructions: { ...county.instructions, correction: { ...county.instructions.correction, method } }
	}));

const anySituation = fc.constantFrom(...CONTESTS).chain((contest) => {
	const ids = contestOf(county, contest).choices.map(({ id }) => id);
	const choice = fc.constantFrom(...ids);
	const sketch = fc.tuple(
		fc.constant(contest),
		fc.option(choice, { nil: undefined }),
		fc.constantFrom(...MARK_KINDS),
		fc.constantFrom(...MARK_PLACES),
		fc.option(choice, { nil: undefined })
	);
	return fc.record({
		contest: fc.constant(contest),
		election: anyElection,
		levels: fc.dictionary(
			fc.oneof(
				choice.map((id) => `${contest}/${id}`),
				fc.constant('senate-orchard/perrywick')
			),
			fc.constantFrom(...LEVELS)
		),
		marks: fc.array(sketch, { maxLength: 4 }),
		people: fc.record({
			outcome: fc.constantFrom(...OUTCOMES),
			looks: fc.constantFrom(...LOOKS),
			wouldLook: fc.boolean(),
			votes: fc.subarray(ids)
		})
	});
});

/** Everything a note says about a reading: the place in the locales, and the sentence. */
function saidOf(given: typeof anySituation extends fc.Arbitrary<infer T> ? T : never): readonly [string, Sentence][] {
	const reading = adviseOn(given.contest, given);
	const contest = contestOf(given.election, given.contest);
	const people = peopleSay(reading);
	return [
		['reading.headline', headline(reading, contest)],
		...machineSays(reading, contest).map((one): [string, Sentence] => ['reading.machine', one]),
		['reading.people', people.when],
		...(people.decide ? [['reading.people', people.decide] as [string, Sentence]] : []),
		...reading.advice.map((one): [string, Sentence] => ['advice', one])
	];
}

type Tree = { readonly [key: string]: string | Tree };
function find(bundle: Tree, path: string): string | undefined {
	let at: string | Tree | undefined = bundle;
	for (const step of path.split('.')) at = typeof at === 'object' ? at[step] : undefined;
	return typeof at === 'string' ? at : undefined;
}

const PLURALS = { en: ['one', 'other'], es: ['one', 'many', 'other'] } as const;

/** The texts that i18next may choose for a sentence, or the paths it looked in without finding any. */
function textsOf(bundle: Tree, lang: 'en' | 'es', path: string, shape: string, sentence: Sentence): readonly string[] {
	const forms = 'count' in sentence.values ? PLURALS[lang].map((form) => `_${form}`) : [''];
	return forms.map((form) => {
		const found = find(bundle, `${path}_${shape}${form}`) ?? find(bundle, `${path}${form}`) ?? find(bundle, path);
		if (found === undefined) throw new Error(`locales/${lang}.json has no text for ${path}_${shape}${form}`);
		return found;
	});
}

const BUNDLES = [
	['en', en as Tree],
	['es', es as Tree]
] as const;

const namesIn = (text: string): readonly string[] =>
	[...text.matchAll(/\{\{(\w+)\}\}/g)].map((match) => match[1] ?? '');

describe('for any marks on any contest', () => {
	test('advice comes, is never empty at a stage in hand, and each piece holds at one stage or at all', () => {
		fc.assert(
			fc.property(anySituation, (given) => {
				const { advice } = adviseOn(given.contest, given);
				for (const stage of ['holding', 'polling-place', 'mailed'])
					expect(advice.some((one) => one.stage === undefined || one.stage === stage)).toBe(true);
			}),
			{ numRuns: 400 }
		);
	});

	test('every sentence has a text in both languages that asks for no value it is not given', () => {
		fc.assert(
			fc.property(anySituation, (given) => {
				const { shape } = given.election.target;
				const asked = saidOf(given).flatMap(([section, sentence]) =>
					BUNDLES.flatMap(([lang, bundle]) =>
						textsOf(bundle, lang, `${section}.${sentence.key}`, shape, sentence)
							.flatMap(namesIn)
							.filter((name) => !(name in sentence.values))
							.map((name) => `${lang}: ${section}.${sentence.key} asks for ${name}`)
					)
				);
				expect(asked).toEqual([]);
			}),
			{ numRuns: 300 }
		);
	}, 20_000);

	test('only marks of the contest are named, and a calm heading never stands over pressing advice', () => {
		fc.assert(
			fc.property(anySituation, (given) => {
				const reading = adviseOn(given.contest, given);
				const known = given.marks.map((_, i) => `m${i + 1}`);
				for (const { marks = [] } of reading.advice) for (const id of marks) expect(known).toContain(id);
				const pressing = reading.advice.some(({ tone }) => tone === 'look');
				if (pressing) expect(headline(reading, contestOf(county, given.contest)).tone).toBe('look');
			}),
			{ numRuns: 400 }
		);
	});

	test('nothing that was given is changed', () => {
		fc.assert(
			fc.property(anySituation, (given) => {
				const before = JSON.stringify(given);
				adviseOn(given.contest, given);
				expect(JSON.stringify(given)).toBe(before);
			}),
			{ numRuns: 100 }
		);
	});
});
