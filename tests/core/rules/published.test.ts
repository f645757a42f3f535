import { describe, expect, test } from 'vitest';
import { evaluate } from '$core/rules/evaluate';
import type { BallotFacts } from '$core/rules/facts';
import type { Rulebook } from '$core/rules/rule';
import alaska from '$core/rules/sets/us-ak.json' with { type: 'json' };
import nebraska from '$core/rules/sets/us-ne.json' with { type: 'json' };
import texas from '$core/rules/sets/us-tx.json' with { type: 'json' };
import { one, picture } from './picture';

function under(document: unknown, facts: BallotFacts) {
	const people = evaluate(document as Rulebook, facts).contests.get('contest');
	return [people?.outcome, people?.votes.join(' '), people?.clauses.map(({ id }) => id).join(' ')];
}

const twoFilledOneStruck = one({ A: 'fill', B: ['fill', 'strike'] });
const nameRinged = one({ A: 'ring', B: '' });
const othersStruck = one({ A: '', B: 'strike', C: 'strike' });

describe('Alaska Stat. 15.15.360 and its cases', () => {
	test('take an X, a check or a stroke in the oval: (a)(1)', () => {
		for (const mark of ['cross', 'check', 'stroke', 'fill'])
			expect(under(alaska, one({ A: mark, B: '' }))).toEqual(['vote', 'A', 'AK-a1']);
	});

	test('take no ring around a name and no check beside one: (a)(4), (b)', () => {
		expect(under(alaska, nameRinged)).toEqual(['no-vote', '', 'AK-a4n']);
		expect(under(alaska, one({ A: 'check beside-target', B: '' }))).toEqual(['no-vote', '', 'AK-a4n']);
	});

	test('take a filled oval against a trace at the edge of another: Edgmon v. State', () => {
		expect(under(alaska, one({ A: 'fill', B: 'stroke touching-target' }))).toEqual(['vote', 'A', 'AK-E1 AK-a1']);
	});

	test('take an X against a line through another name and its oval: Edgmon v. State', () => {
		expect(under(alaska, one({ A: 'cross', B: 'strike' }))[0]).toBe('vote');
		expect(under(alaska, one({ A: 'cross', B: 'strike in-target' }))[1]).toBe('A');
	});

	test('take a fill and an X in two ovals for an overvote: Dodge v. Meyer', () => {
		expect(under(alaska, one({ A: 'fill', B: 'cross' }))).toEqual(['overvote', '', 'AK-D1 AK-a3']);
	});

	test('lose only the contest with an erasure: (a)(6)', () => {
		expect(under(alaska, one({ A: 'fill', B: 'erasure' }))).toEqual(['void-contest', '', 'AK-a6']);
	});

	test('want both name and oval for a write-in: (d)(2), Miller v. Treadwell', () => {
		expect(under(alaska, one({ A: '', W: 'writing' }))).toEqual(['no-vote', '', 'AK-d2']);
		expect(under(alaska, one({ A: '', W: ['writing', 'fill'] }))).toEqual(['vote', 'W', 'AK-a1 AK-d3']);
	});

	test('take a printed name that is written in for that person: (d)(1)', () => {
		const facts = one({ A: '', W: [{ kind: 'writing', says: 'printed-name', names: 'A' }, 'fill'] });
		expect(under(alaska, facts).slice(0, 2)).toEqual(['vote', 'A']);
	});

	test('have a person read a name that may be the one already filled', () => {
		expect(under(alaska, one({ A: 'fill', W: ['writing', 'fill'] }))[0]).toBe('refer');
	});

	test('are silent about a dot alone in the oval', () => {
		expect(under(alaska, one({ A: 'dot', B: '' }))).toEqual(['silent', '', '']);
	});

	const ranked = (...ranks: readonly (readonly [string, number])[]) => {
		const of = (id: string) =>
			ranks.filter(([choice]) => choice === id).map(([, rank]) => ({ kind: 'fill' as const, rank }));
		return one({ A: of('A'), B: of('B'), C: of('C'), D: of('D') }, { kind: 'ranked', ranks: 5 });
	};

	test('read a ranking up to two choices at one rank, pass one skip and stop at two: 15.15.350', () => {
		expect(under(alaska, ranked(['A', 1], ['B', 2]))).toEqual(['vote', 'A B', 'AK-a1']);
		expect(under(alaska, ranked(['A', 1], ['B', 2], ['C', 2], ['D', 3]))).toEqual(['vote', 'A', 'AK-RCV1 AK-a1']);
		expect(under(alaska, ranked(['A', 1], ['B', 1]))).toEqual(['overvote', '', 'AK-RCV1']);
		expect(under(alaska, ranked(['A', 1], ['B', 3]))).toEqual(['vote', 'A B', 'AK-RCV2 AK-a1']);
		expect(under(alaska, ranked(['A', 1], ['B', 4]))).toEqual(['vote', 'A', 'AK-RCV3 AK-a1']);
		expect(under(alaska, ranked(['A', 1], ['A', 2]))[0]).toBe('silent');
	});
});

describe('Texas Elec. Code 65.009', () => {
	test('takes a ringed name and a check beside one: (d)(1), (d)(2)', () => {
		expect(under(texas, nameRinged)).toEqual(['vote', 'A', 'TX-d2']);
		expect(under(texas, one({ A: 'check beside-target', B: '' }))).toEqual(['vote', 'A', 'TX-d1']);
	});

	test('takes the one name left where the others are lined through: (d)(3)(A)', () => {
		expect(under(texas, othersStruck)).toEqual(['vote', 'A', 'TX-d3A']);
		expect(under(texas, one({ A: '', B: '', C: 'strike' }))[0]).toBe('no-vote');
	});

	test('takes For where Against is lined through: (d)(3)(C)', () => {
		expect(under(texas, one({ YES: '', NO: 'strike' }, { kind: 'measure' }))).toEqual(['vote', 'YES', 'TX-d3A']);
	});

	test('takes the other of two filled choices where one is marked through, ringed or refused in words: (b), (c)', () => {
		expect(under(texas, twoFilledOneStruck).slice(0, 2)).toEqual(['vote', 'A']);
		expect(under(texas, one({ A: ['fill', 'ring'], B: 'fill' })).slice(0, 2)).toEqual(['vote', 'A']);
		const refused = one({ A: 'fill', B: ['fill', { kind: 'writing', says: 'no' }] });
		expect(under(texas, refused).slice(0, 2)).toEqual(['vote', 'A']);
	});

	test('is silent about two filled choices with nothing to tell, since the section on it was not read', () => {
		expect(under(texas, one({ A: 'fill', B: 'fill' }))).toEqual(['silent', '', '']);
	});
});

describe('Neb. Rev. Stat. 32-901 and 32-1004', () => {
	test('let the scanner decide, whatever else stands on the paper', () => {
		expect(under(nebraska, one({ A: 'check', B: 'ring' }))).toEqual(['vote', 'A', 'NE-1']);
		expect(under(nebraska, nameRinged)).toEqual(['no-vote', '', 'NE-1']);
		expect(under(nebraska, one({ A: '', B: '' }))).toEqual(['blank', '', 'NE-1']);
	});

	test('let nobody judge an overvote, even with one choice crossed out', () => {
		expect(under(nebraska, twoFilledOneStruck)).toEqual(['overvote', '', 'NE-3']);
		expect(evaluate(nebraska as unknown as Rulebook, twoFilledOneStruck).contests.get('contest')?.wouldLook).toBe(
			false
		);
	});

	test('do not say what a scanner makes of a mark that it may or may not see', () => {
		expect(under(nebraska, one({ A: 'unsure', B: '' }))[0]).toBe('refer');
	});

	test('lose a ballot that the voter signed: Swan v. Bowker', () => {
		const facts = picture({
			contests: [{ id: 'contest', choices: { A: 'fill', B: '' } }],
			margin: [{ kind: 'writing', says: 'identity' }]
		});
		expect(under(nebraska, facts)).toEqual(['void-ballot', '', 'NE-n2']);
	});
});
