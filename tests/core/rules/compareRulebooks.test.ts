import { describe, expect, test } from 'vitest';
import { compareRulebooks, groupAlike, oneOfEach } from '$core/rules/compareRulebooks';
import { evaluate } from '$core/rules/evaluate';
import type { Clause, Rulebook } from '$core/rules/rule';
import { one, picture } from './picture';

const text = { en: 'x', es: 'x' };
const clause = (id: string, rest: Pick<Clause, 'scope' | 'when' | 'then'>): Clause => ({
	id,
	cite: `Rule ${id}`,
	source: 'Made up for this test',
	read: '2026-11-25',
	status: 'R',
	plain: text,
	...rest
});
const book = (id: string, clauses: readonly Clause[], looks: Rulebook['looks'] = 'always'): Rulebook => ({
	format: 'fairhand-rulebook/1',
	id,
	title: text,
	jurisdiction: 'invented',
	versionRead: 'x',
	readOn: '2026-11-25',
	howMuchRead: 'whole',
	caution: text,
	looks,
	clauses,
	outOfScope: []
});

const rings = { scope: 'choice', when: { mark: { kind: 'ring' } } } as const;
const takes = book('takes', [clause('T-1', { ...rings, then: 'vote' })]);
const takesToo = book('takes-too', [clause('U-7', { ...rings, then: 'vote' })]);
const refuses = book('refuses', [clause('R-1', { ...rings, then: 'no-vote' })]);
const silent = book('silent', []);
const machine = book(
	'machine',
	[clause('M-1', { scope: 'contest', when: { always: true }, then: 'machine' })],
	'never'
);
const all = [silent, refuses, takes, takesToo];
const ring = one({ A: 'ring', B: '' });

describe('one picture under several rulebooks', () => {
	test('comes to what each of them decides by itself', () => {
		for (const verdict of compareRulebooks(all, ring)) {
			const alone = evaluate(verdict.rulebook, ring);
			const [contest] = verdict.contests;
			expect(contest).toMatchObject({
				outcome: alone.contests.get('contest')?.outcome,
				votes: alone.contests.get('contest')?.votes
			});
			expect(contest?.clauses.map(({ id }) => id)).toEqual(alone.contests.get('contest')?.clauses.map(({ id }) => id));
			expect(contest?.trace).toEqual(alone.contests.get('contest')?.trace);
			expect(verdict.ballot).toBe(alone.ballot.outcome);
		}
	});

	test('differs where the rulebooks do, with the clause of each', () => {
		const found = compareRulebooks([takes, refuses], ring).map(({ contests: [contest] }) => [
			contest?.outcome,
			contest?.votes,
			contest?.clauses.map(({ cite }) => cite)
		]);
		expect(found).toEqual([
			['vote', ['A'], ['Rule T-1']],
			['no-vote', [], ['Rule R-1']]
		]);
	});

	test('says whose reading it is: the machine’s, people’s, or what people would decide if they looked', () => {
		const aside = book('aside', [clause('S-1', { ...rings, then: 'vote' })], 'over-or-under');
		const by = (facts: typeof ring, ...books: Rulebook[]) =>
			compareRulebooks(books, facts).map(({ contests: [contest] }) => contest?.by);
		expect(by(ring, takes, machine, aside)).toEqual(['people', 'machine', 'people']);
		// A filled target is all that the machine was to see: nobody looks at the ring beside it.
		expect(by(one({ A: ['fill', 'ring'], B: '' }), aside)).toEqual(['if-looked']);
	});

	test('names the clauses about the sheet as a whole beside those about its contests', () => {
		const voids = book('voids', [
			clause('V-1', {
				scope: 'ballot',
				when: { onBallot: { kind: 'writing', says: 'identity' } },
				then: 'void-ballot'
			})
		]);
		const signed = picture({
			contests: [{ id: 'contest', choices: { A: 'fill' } }],
			margin: [{ kind: 'writing', says: 'identity' }]
		});
		const [verdict] = compareRulebooks([voids], signed);
		expect(verdict?.ballot).toBe('void-ballot');
		expect(verdict?.ballotClauses.map(({ id }) => id)).toEqual(['V-1']);
	});
});

describe('rulebooks that come to the same', () => {
	const groups = groupAlike(compareRulebooks(all, ring));
	const ids = groups.map((group) => group.map(({ rulebook }) => rulebook.id));

	test('stand together whatever their clauses, the largest group first', () => {
		expect(ids[0]).toEqual(['takes', 'takes-too']);
		expect([...ids.flat()].sort()).toEqual(all.map(({ id }) => id).sort());
	});

	test('are told from those that come to another vote of the same kind', () => {
		const other = { scope: 'choice', when: { not: { mark: { kind: 'ring' } } }, then: 'vote' } as const;
		const contrary = book('contrary', [clause('C-1', other), clause('C-2', { ...rings, then: 'no-vote' })]);
		const found = groupAlike(compareRulebooks([takes, contrary], ring));
		expect(found.map((group) => group[0]?.contests[0]?.votes)).toEqual([['A'], ['B']]);
	});

	test('are each stood for by one, by a picked one where there is one', () => {
		expect(oneOfEach(groups).map(({ id }) => id)).toEqual(ids.map(([first]) => first));
		expect(oneOfEach(groups, ['takes-too']).map(({ id }) => id)[0]).toBe('takes-too');
	});
});
