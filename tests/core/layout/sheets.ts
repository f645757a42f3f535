import fc from 'fast-check';
import { county } from '$core/election/demo';
import type { Choice, Contest, ContestKind, Election, TargetShape, TargetSide } from '$core/election/election';
import type { PrintedWords } from '$core/layout/words';
import en from '../../../locales/en.json' with { type: 'json' };
import es from '../../../locales/es.json' with { type: 'json' };

export const words: PrintedWords = { en: en.layout, es: es.layout };

export const SHAPES: readonly TargetShape[] = ['oval', 'box', 'arrow'];
export const SIDES: readonly TargetSide[] = ['left', 'right'];
export const LANGUAGES: readonly (readonly string[])[] = [['en'], ['es'], ['en', 'es']];

/** An election with other targets and columns. */
export function withTargets(election: Election, shape: TargetShape, side: TargetSide, columns: 2 | 3): Election {
	return { ...election, target: { ...election.target, shape, side }, page: { ...election.page, columns } };
}

/** An election whose one style holds just `contests`. */
export function electionOf(contests: readonly Contest[], change: Partial<Election> = {}): Election {
	const style = { id: 'all', name: { en: 'All', es: 'Todo' }, precincts: [], contests: contests.map(({ id }) => id) };
	return { ...county, contests, styles: [style], ...change };
}

export function contestOf(id: string, choices: readonly Choice[], change: Partial<Contest> = {}): Contest {
	return {
		id,
		kind: 'candidates',
		title: { en: `Contest ${id}`, es: `Contienda ${id}` },
		voteFor: 1,
		choices,
		...change
	};
}

export function candidate(id: string, name: string): Choice {
	return { id, kind: 'candidate', name: { en: name, es: name } };
}

/** Words of very different length, some with hyphens, some with letters the bundled font does not have. */
const word = fc.oneof(
	{ weight: 6, arbitrary: fc.stringMatching(/^[A-ZÁÑa-záéíñü]{1,12}$/) },
	{ weight: 2, arbitrary: fc.stringMatching(/^[A-Z][a-z]{2,9}-[A-Z][a-z]{2,9}$/) },
	{ weight: 1, arbitrary: fc.stringMatching(/^[a-z]{30,50}$/) },
	{ weight: 1, arbitrary: fc.string({ unit: 'grapheme', maxLength: 12 }) }
);

const name = fc.array(word, { minLength: 1, maxLength: 5 }).map((parts) => parts.join(' ').slice(0, 80));
const text = fc.record({ en: name, es: name });
const kinds: readonly ContestKind[] = ['candidates', 'measure', 'retention', 'party-preference', 'ranked'];

const choice = fc.record(
	{
		kind: fc.constantFrom<Choice['kind']>('candidate', 'answer', 'write-in'),
		name: text,
		detail: text,
		party: fc.constantFrom(...county.parties.map(({ id }) => id))
	},
	{ requiredKeys: ['kind', 'name'] }
);

const contest = fc
	.record(
		{
			kind: fc.constantFrom(...kinds),
			title: text,
			subtitle: text,
			text,
			voteFor: fc.integer({ min: 1, max: 12 }),
			ranks: fc.integer({ min: 1, max: 4 }),
			choices: fc.array(choice, { minLength: 1, maxLength: 3 })
		},
		{ requiredKeys: ['kind', 'title', 'voteFor', 'choices'] }
	)
	.map(({ choices, ...rest }) => ({ ...rest, choices: choices.map((one, i) => ({ ...one, id: `choice-${i}` })) }));

/** Elections with names as long as any, every kind of contest and every target. */
export const elections: fc.Arbitrary<Election> = fc
	.record({
		contests: fc.array(contest, { minLength: 1, maxLength: 9 }),
		shape: fc.constantFrom(...SHAPES),
		side: fc.constantFrom(...SIDES),
		widthPt: fc.double({ min: 9, max: 22, noNaN: true }),
		heightPt: fc.double({ min: 8.6, max: 12, noNaN: true }),
		columns: fc.constantFrom<2 | 3>(2, 3),
		namePt: fc.constantFrom(10, 11, 12),
		foldsAt: fc.constantFrom([], [0.5], [1 / 3, 2 / 3], [0.25, 0.5, 0.75])
	})
	.map(({ contests, shape, side, widthPt, heightPt, columns, namePt, foldsAt }) =>
		electionOf(
			contests.map((one, i) => ({ ...one, id: `contest-${i}` })),
			{ target: { shape, side, widthPt, heightPt }, page: { ...county.page, columns, namePt, foldsAt } }
		)
	);
