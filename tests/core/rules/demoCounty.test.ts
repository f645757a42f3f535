import { describe, expect, test } from 'vitest';
import { evaluate } from '$core/rules/evaluate';
import type { BallotFacts } from '$core/rules/facts';
import type { Rulebook } from '$core/rules/rule';
import document from '$core/rules/sets/demo-county.json' with { type: 'json' };
import { one, picture } from './picture';

const house = document as unknown as Rulebook;

function decided(facts: BallotFacts, contest = 'contest') {
	const people = evaluate(house, facts).contests.get(contest);
	return { outcome: people?.outcome, votes: people?.votes, clauses: people?.clauses.map(({ id }) => id) };
}

const vote = (votes: readonly string[], ...clauses: readonly string[]) => ({ outcome: 'vote', votes, clauses });
const none = (outcome: string, ...clauses: readonly string[]) => ({ outcome, votes: [], clauses });

describe('the house rulebook of the demo county', () => {
	test('names each of its rules in Spanish too, by the same number', () => {
		for (const { cite, citeIn } of [...house.clauses, ...house.outOfScope]) {
			const number = /^Demo rule (\d+(?:\([a-z]\))?), invented$/.exec(cite)?.[1];
			expect([cite, citeIn]).toEqual([cite, { es: `Regla de demostración ${number}, inventada` }]);
		}
	});

	test('lets the machine’s reading of one filled target stand', () => {
		expect(decided(one({ A: 'fill', B: '' }))).toEqual(vote(['A'], 'demo-10a'));
	});

	test('takes a faintly filled target that the machine is unsure of', () => {
		expect(decided(one({ A: { marks: ['fill'], level: 'unsure' }, B: '' }))).toEqual(vote(['A'], 'demo-1a'));
	});

	test('takes neither of two filled targets with nothing to tell', () => {
		expect(decided(one({ A: 'fill', B: 'fill' }))).toEqual(none('overvote', 'demo-4a'));
	});

	test('takes the other where one of two filled choices is crossed out', () => {
		expect(decided(one({ A: 'fill', B: ['fill', 'strike'] }))).toEqual(vote(['A'], 'demo-1a', 'demo-3a'));
	});

	test('takes no vote from a choice that is filled and crossed out with nothing else marked', () => {
		const facts = one({ A: { marks: ['fill', 'strike'], level: 'unsure' }, B: '' });
		expect(decided(facts)).toEqual(none('no-vote', 'demo-3a'));
	});

	test('takes the other where one of two marks is erased', () => {
		const facts = one({ A: 'fill', B: { marks: ['erasure in-target'], level: 'unsure' } });
		expect(decided(facts)).toEqual(vote(['A'], 'demo-1a', 'demo-3b'));
	});

	test('sends an erased mark that is still dark to a majority of the board', () => {
		const facts = one({ A: 'fill', B: { marks: ['erasure in-target'], level: 'dark' } });
		expect(decided(facts)).toEqual(none('refer', 'demo-3c'));
		expect(evaluate(house, facts).contests.get('contest')?.decides).toBe('majority');
	});

	test('takes the one of two filled choices that is also ringed', () => {
		expect(decided(one({ A: ['fill', 'ring'], B: 'fill' }))).toEqual(vote(['A'], 'demo-4b'));
	});

	test('takes neither where both filled choices are ringed', () => {
		expect(decided(one({ A: ['fill', 'ring'], B: ['fill', 'ring'] }))).toEqual(none('overvote', 'demo-4a'));
	});

	test('takes a ringed name where no target is marked, and a check beside a name', () => {
		expect(decided(one({ A: 'ring', B: '' }))).toEqual(vote(['A'], 'demo-2a'));
		expect(decided(one({ A: 'check beside-target', B: '' }))).toEqual(vote(['A'], 'demo-2a'));
	});

	test('asks people which name a ring around two names stands for', () => {
		const facts = one({ A: { kind: 'ring', alsoTouches: ['B'] }, B: '' });
		expect(decided(facts)).toEqual(none('refer', 'demo-2a'));
	});

	test('takes a dot alone for no vote, and says nothing of a contest with only a stain but that it is no vote', () => {
		expect(decided(one({ A: 'dot', B: '' }))).toEqual(none('no-vote', 'demo-1c'));
		expect(decided(one({ A: { marks: ['stain'], level: 'unsure' }, B: '' }))).toEqual(none('no-vote', 'demo-1d'));
	});

	test('takes neither answer where yes and no are both marked', () => {
		const facts = one({ YES: 'fill', NO: 'cross' }, { kind: 'measure' });
		expect(decided(facts)).toEqual(none('overvote', 'demo-4a', 'demo-4c'));
	});

	test('takes all of fewer marks than allowed', () => {
		const facts = one({ A: 'fill', B: '', C: { marks: ['check'], level: 'unsure' } }, { voteFor: 3 });
		expect(decided(facts)).toEqual(vote(['A', 'C'], 'demo-1a', 'demo-1b', 'demo-4d'));
	});

	test('takes none of three marks where two are allowed', () => {
		const facts = one({ A: 'fill', B: 'fill', C: 'fill', D: '' }, { voteFor: 2 });
		expect(decided(facts)).toEqual(none('overvote', 'demo-4a'));
	});

	test('calls a contest without a mark blank', () => {
		expect(decided(one({ A: '', B: '' }))).toEqual(none('blank', 'demo-4e'));
	});

	test('takes a name written in with its target filled, and without', () => {
		expect(decided(one({ A: '', W: ['writing', 'fill'] }))).toEqual(vote(['W'], 'demo-1a', 'demo-5a'));
		expect(decided(one({ A: '', W: 'writing' }))).toEqual(vote(['W'], 'demo-5b'));
	});

	test('takes neither where a printed choice is filled and another name is written', () => {
		const facts = one({ A: 'fill', W: { kind: 'writing', says: 'name' } });
		expect(decided(facts)).toEqual(none('overvote', 'demo-4a'));
	});

	test('takes the printed choice where the write-in target is filled and no name is written', () => {
		expect(decided(one({ A: 'fill', W: 'fill' }))).toEqual(vote(['A'], 'demo-1a', 'demo-5c'));
	});

	test('has a person read a word beside a choice, and goes by what the person says', () => {
		const facts = (says?: 'no' | 'yes' | 'remark') =>
			one({ A: 'fill', B: ['fill', { kind: 'writing', ...(says ? { says } : {}) }] });
		expect(decided(facts())).toEqual(none('refer', 'demo-1a', 'demo-5d', 'demo-5e'));
		expect(decided(facts('no'))).toEqual(vote(['A'], 'demo-1a', 'demo-5d'));
		expect(decided(facts('remark'))).toEqual(none('overvote', 'demo-4a'));
	});

	test('has people look at a mark of which the kind is not clear', () => {
		expect(decided(one({ A: 'unsure', B: '' })).outcome).toBe('refer');
	});
});

describe('the demo county’s primary', () => {
	const primary = (preference: string, lantern: string, orchard: string) =>
		picture({
			contests: [
				{
					id: 'preference',
					kind: 'party-preference',
					choices: { L: preference === 'L' ? 'fill' : '', O: preference === 'O' ? 'fill' : '' },
					parties: { L: 'lantern', O: 'orchard' }
				},
				{ id: 'lantern', party: 'lantern', choices: { A: lantern, B: '' } },
				{ id: 'orchard', party: 'orchard', choices: { C: orchard, D: '' } },
				{ id: 'sheriff', choices: { E: 'fill', F: '' } }
			]
		});

	test('loses both parties’ contests where both are marked, and nothing else', () => {
		const facts = primary('', 'fill', 'fill');
		expect(decided(facts, 'lantern')).toEqual(none('void-contest', 'demo-6a'));
		expect(decided(facts, 'orchard')).toEqual(none('void-contest', 'demo-6a'));
		expect(decided(facts, 'sheriff')).toEqual(vote(['E'], 'demo-10a'));
		expect(evaluate(house, facts).ballot.clauses.map(({ id }) => id)).toEqual(['demo-6a']);
	});

	test('reads only the party that was chosen', () => {
		const facts = primary('L', '', 'fill');
		expect(decided(facts, 'lantern').outcome).toBe('blank');
		expect(decided(facts, 'orchard')).toEqual(none('no-vote', 'demo-6b'));
		expect(decided(facts, 'sheriff').outcome).toBe('vote');
	});

	test('leaves contests of one party alone', () => {
		expect(decided(primary('', 'fill', ''), 'lantern')).toEqual(vote(['A'], 'demo-10a'));
		expect(decided(primary('L', 'fill', ''), 'lantern')).toEqual(vote(['A'], 'demo-10a'));
	});
});

describe('the whole sheet in the demo county', () => {
	const sheet = (margin: Parameters<typeof picture>[0]['margin'], seen?: readonly number[]) =>
		evaluate(
			house,
			picture({
				contests: [
					{ id: 'contest', choices: { A: 'fill', B: '' } },
					{ id: 'next', page: 2, choices: { A: '', B: '' } }
				],
				pages: 2,
				...(margin ? { margin } : {}),
				...(seen ? { seen } : {})
			})
		);

	test('is copied where it names the voter, stands where it does not, and is read by a person first', () => {
		expect(sheet([{ kind: 'writing', says: 'identity' }]).ballot.outcome).toBe('duplicate');
		expect(sheet([{ kind: 'writing', says: 'remark' }]).ballot).toMatchObject({
			outcome: 'none',
			clauses: [{ id: 'demo-7b' }]
		});
		expect(sheet(['writing']).ballot.outcome).toBe('refer');
		expect(sheet([]).ballot).toMatchObject({ outcome: 'none', clauses: [] });
	});

	test('is not settled while a page was not seen, though the contests of the other are', () => {
		const people = sheet([], [1]);
		expect(people.ballot.outcome).toBe('refer');
		expect([...people.contests.keys()]).toEqual(['contest']);
		expect(people.contests.get('contest')?.outcome).toBe('vote');
	});
});
