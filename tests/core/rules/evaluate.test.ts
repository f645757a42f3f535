import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { evaluate } from '$core/rules/evaluate';
import type { Clause, Condition, Rulebook } from '$core/rules/rule';
import { MISSING_KEYS } from '$core/rules/vocabulary';
import { one, picture, type BallotSpec } from './picture';
import { anyBallot } from './scattered';
import { SETS } from './sets';

const text = { en: 'x', es: 'x' };

/** A clause in short: id, scope, condition, result, and what else it has. */
const clause = (
	id: string,
	scope: Clause['scope'],
	when: Condition,
	then: Clause['then'],
	more: Partial<Clause> = {}
): Clause => ({ id, cite: id, source: 'x', read: '2026-01-01', status: 'R', scope, when, then, plain: text, ...more });

const book = (clauses: readonly Clause[], more: Partial<Rulebook> = {}): Rulebook => ({
	format: 'fairhand-rulebook/1',
	id: 'x',
	title: text,
	jurisdiction: 'invented',
	versionRead: 'x',
	readOn: '2026-01-01',
	howMuchRead: 'whole',
	caution: text,
	looks: 'always',
	clauses,
	outOfScope: [],
	...more
});

const FILLED: Condition = { mark: { kind: 'fill', place: 'in-target' } };
const vote = clause('vote', 'choice', FILLED, 'vote');
const overvote = clause('overvote', 'contest', { votes: 'too-many' }, 'overvote');

const decide = (rulebook: Rulebook, facts = one({ A: 'fill', B: '' })) => {
	const people = evaluate(rulebook, facts).contests.get('contest');
	return [people?.outcome, people?.votes.join(' '), people?.clauses.map(({ id }) => id).join(' ')];
};

const everySet = fc.constantFrom(...SETS.map(([, rulebook]) => rulebook));

describe('exceptions', () => {
	const never = clause('never', 'choice', { always: true }, 'no-vote', { exceptionTo: ['vote'] });
	const unless = clause('unless', 'choice', { mark: { kind: 'ring' } }, 'vote', { exceptionTo: ['never'] });

	test('override the clause that they name, and are overridden by their own', () => {
		expect(decide(book([vote, never]))).toEqual(['no-vote', '', 'never']);
		expect(decide(book([vote, never, unless]), one({ A: ['fill', 'ring'], B: '' }))).toEqual([
			'vote',
			'A',
			'unless vote'
		]);
	});

	test('are told in the trace with what overrode them', () => {
		const trace = evaluate(book([vote, never]), one({ A: 'fill', B: '' })).contests.get('contest')?.trace;
		expect(trace).toContainEqual({
			clause: 'vote',
			cite: 'vote',
			result: 'overridden',
			by: 'never',
			choice: 'A',
			marks: ['m1'],
			values: {}
		});
	});

	test('in a circle are refused with the rulebook and the clause named', () => {
		const circle = [never, { ...vote, exceptionTo: ['never'] }];
		expect(() => evaluate(book(circle), one({ A: '' }))).toThrow(/rulebook "x".*"never"|rulebook "x".*"vote"/);
	});
});

describe('clauses that disagree', () => {
	test('refer a contest, both cited, where no exception is named', () => {
		expect(decide(book([vote, clause('other', 'choice', FILLED, 'no-vote')]))).toEqual(['refer', '', 'other vote']);
		const voided = clause('voided', 'contest', { votes: 'too-many' }, 'void-contest');
		expect(decide(book([vote, overvote, voided]), one({ A: 'fill', B: 'fill' }))).toEqual([
			'refer',
			'',
			'overvote voided'
		]);
	});

	test('refer across scopes where they are named as saying otherwise, in either direction', () => {
		const ring = clause('ring', 'choice', { mark: { kind: 'ring' } }, 'vote');
		const strict = clause('strict', 'ballot', { onBallot: { kind: 'ring' } }, 'void-ballot', {
			conflictsWith: ['ring']
		});
		const facts = one({ A: 'ring', B: '' });
		expect(decide(book([ring, strict]), facts)).toEqual(['refer', '', 'ring strict']);
		expect(evaluate(book([ring, strict]), facts).ballot.outcome).toBe('refer');
		const mirrored = [
			{ ...ring, conflictsWith: ['strict'] },
			{ ...strict, conflictsWith: [] }
		];
		expect(decide(book(mirrored), facts)).toEqual(['refer', '', 'ring strict']);
		expect(decide(book([{ ...ring }, { ...strict, conflictsWith: [] }]), facts)).toEqual(['void-ballot', '', 'strict']);
	});

	test('leave every contest open where what they disagree on is the whole sheet', () => {
		const ring = clause('ring', 'choice', { mark: { kind: 'ring' } }, 'vote');
		const strict = clause('strict', 'ballot', { onBallot: { kind: 'ring' } }, 'void-ballot', {
			conflictsWith: ['ring']
		});
		const facts = picture({
			contests: [
				{ id: 'contest', choices: { A: 'fill', B: '' } },
				{ id: 'other', choices: { A: 'ring', B: '' } }
			]
		});
		expect(decide(book([vote, ring, strict]), facts)).toEqual(['refer', '', 'strict']);
		expect(evaluate(book([vote, ring, strict]), facts).ballot).toMatchObject({
			outcome: 'refer',
			clauses: [{ id: 'ring' }, { id: 'strict' }]
		});
	});

	test('always refer, whatever the two results and whatever marks', () => {
		fc.assert(
			fc.property(
				fc.uniqueArray(fc.constantFrom('vote', 'no-vote', 'refer'), { minLength: 2, maxLength: 2 }),
				fc.constantFrom('fill', 'cross', 'ring', 'dot', 'writing'),
				(results, kind) => {
					const clauses = results.map((then, i) => clause(`c${i}`, 'choice', { mark: {} }, then));
					expect(decide(book(clauses), one({ A: kind, B: '' }))).toEqual(['refer', '', 'c0 c1']);
				}
			)
		);
	});
});

describe('silence', () => {
	test('is the outcome where no clause speaks of a mark that might be a vote', () => {
		expect(decide(book([vote]), one({ A: 'fill', B: 'cross' }))).toEqual(['silent', '', '']);
		expect(decide(book([vote]), one({ A: 'fill', B: 'fill' }))).toEqual(['silent', '', '']);
	});

	test('is not caused by accidents, strikes or a resting pen beside another choice’s vote', () => {
		for (const mark of ['stain on-name', 'fold on-name', 'smudge beside-target', 'erasure', 'strike', 'dot on-name'])
			expect(decide(book([vote]), one({ A: 'fill', B: mark })), mark).toEqual(['vote', 'A', 'vote']);
	});

	test('covers a stain that fills a target: nobody made it, and no clause speaks of it', () => {
		expect(decide(book([vote]), one({ A: 'stain', B: '' }))).toEqual(['silent', '', '']);
	});

	test('is a plain blank where nothing is marked at all', () => {
		expect(decide(book([vote]), one({ A: '', B: '' }))).toEqual(['blank', '', '']);
	});
});

describe('what is not settled', () => {
	test('refers where a clause turns on a mark’s kind, and changes nothing where none does', () => {
		const light = { kind: 'fill' as const, confidence: 0.3 };
		expect(decide(book([vote]), one({ A: light, B: '' }))).toEqual(['refer', '', 'vote']);
		expect(decide(book([clause('any', 'choice', { mark: {} }, 'vote')]), one({ A: light, B: '' }))[0]).toBe('vote');
	});

	test('does not matter once there are too many votes without it', () => {
		const facts = one({ A: 'fill', B: 'fill', C: 'unsure' });
		expect(decide(book([vote, overvote]), facts)).toEqual(['overvote', '', 'overvote']);
	});

	test('refers where nobody has said how a ballot came in, and follows what is said', () => {
		const mail = clause('mail', 'choice', { all: [FILLED, { channel: 'mail' }] }, 'vote');
		const spec: BallotSpec = { contests: [{ id: 'contest', choices: { A: 'fill', B: '' } }] };
		expect(decide(book([mail]), picture(spec))[0]).toBe('refer');
		expect(decide(book([mail]), picture({ ...spec, told: { channel: 'mail' } }))[0]).toBe('vote');
		expect(decide(book([mail], { assumes: { channel: 'mail' } }), picture(spec))[0]).toBe('vote');
		expect(decide(book([mail]), picture({ ...spec, told: { channel: 'polling-place' } }))[0]).toBe('silent');
	});
});

describe('a name on a write-in line that nobody has read', () => {
	const line = clause('line', 'choice', { all: [{ written: true }, FILLED] }, 'vote');
	const again = clause('again', 'choice', { mark: { place: 'write-in', says: 'printed-name' } }, 'no-vote', {
		exceptionTo: ['vote', 'line']
	});
	const rules = book([vote, line, again, overvote]);

	test('is taken for somebody not printed while there are not too many marks', () => {
		expect(decide(rules, one({ A: '', W: ['writing', 'fill'] }))[1]).toBe('W');
		expect(decide(rules, one({ A: 'fill', W: ['writing', 'fill'] }, { voteFor: 2 }))[1]).toBe('A W');
	});

	test('must be read where it decides between a vote and too many', () => {
		expect(decide(rules, one({ A: 'fill', W: ['writing', 'fill'] }))[0]).toBe('refer');
	});
});

describe('handwriting', () => {
	const said = clause('said', 'choice', { mark: { place: 'on-name', says: 'name' } }, 'refer');

	test('is what a person has read, over a printed name too, whatever the reader took it for', () => {
		const over = { kind: 'scribble' as const, place: 'on-name' as const };
		expect(decide(book([said]), one({ A: { ...over, says: 'name' }, B: '' }))).toEqual(['refer', '', 'said']);
		expect(decide(book([said]), one({ A: over, B: '' }))[0]).toBe('silent');
	});
});

describe('a mark in a target', () => {
	const several = clause(
		'several',
		'contest',
		{ inContest: { touches: 'several', place: ['in-target', 'touching-target'] } },
		'overvote'
	);

	test('takes in several choices where it inks another target, not where it only reaches another name', () => {
		const check = { kind: 'fill' as const, alsoTouches: ['B'] };
		expect(decide(book([vote, several]), one({ A: check, B: '' }))[0]).toBe('vote');
		expect(decide(book([vote, several]), one({ A: check, B: { marks: [], level: 'empty', fill: 0.1 } }))[0]).toBe(
			'overvote'
		);
	});
});

describe('the clauses of a vote', () => {
	test('name the one by which what was rubbed out elsewhere is no vote, and none about choices left alone', () => {
		const rubbed = clause('rubbed', 'choice', { erased: true }, 'no-vote');
		const empty = clause('empty', 'choice', { not: { mark: {} } }, 'no-vote');
		expect(decide(book([vote, rubbed]), one({ A: 'fill', B: 'erasure' }))).toEqual(['vote', 'A', 'rubbed vote']);
		expect(decide(book([vote, empty]), one({ A: 'fill', B: '' }))).toEqual(['vote', 'A', 'vote']);
	});
});

describe('a clause by which the sheet stands', () => {
	const stands = clause('stands', 'ballot', { onBallot: { kind: 'cross' } }, 'stands');
	const spec: BallotSpec = { contests: [{ id: 'contest', choices: { A: 'fill', B: '' } }], pages: 2, seen: [1] };

	test('does not leave the sheet open for a page that was not seen', () => {
		expect(evaluate(book([vote, stands]), picture(spec)).ballot.outcome).toBe('none');
		const lost = clause('lost', 'ballot', { onBallot: { kind: 'ring' } }, 'void-ballot');
		expect(evaluate(book([vote, stands, lost]), picture(spec)).ballot.outcome).toBe('refer');
	});
});

describe('the same technique', () => {
	const checks = clause(
		'throughout',
		'choice',
		{ all: [{ mark: { kind: 'check' } }, { technique: 'throughout' }] },
		'vote'
	);
	const majority = {
		...checks,
		id: 'majority',
		when: { all: [{ mark: { kind: 'check' } }, { technique: 'majority' }] }
	};
	const elsewhere = {
		...checks,
		id: 'elsewhere',
		when: { all: [{ mark: { kind: 'check' } }, { technique: 'elsewhere' }] }
	};
	const ballot = (others: readonly string[], more: Partial<BallotSpec> = {}) =>
		picture({
			contests: [
				{ id: 'contest', choices: { A: 'check', B: '' } },
				...others.map((mark, i) => ({ id: `other-${i}`, choices: { A: mark, B: '' } }))
			],
			...more
		});
	const under = (one: Clause, facts: ReturnType<typeof picture>) => decide(book([one]), facts)[0];

	test('throughout holds only where every other marked contest is marked so', () => {
		expect(under(checks, ballot(['check', '', 'check']))).toBe('vote');
		expect(under(checks, ballot(['check', 'fill']))).toBe('silent');
		expect(under(checks, ballot([]))).toBe('vote');
	});

	test('majority and elsewhere hold for less', () => {
		expect(under(majority as Clause, ballot(['check', 'fill']))).toBe('vote');
		expect(under(majority as Clause, ballot(['fill']))).toBe('silent');
		expect(under(elsewhere as Clause, ballot(['check', 'fill', 'fill']))).toBe('vote');
		expect(under(elsewhere as Clause, ballot([]))).toBe('silent');
	});

	test('is not settled while a page was not seen, unless what was seen settles it', () => {
		const partly = { pages: 2, seen: [1] };
		expect(under(checks, ballot(['check'], partly))).toBe('refer');
		expect(under(checks, ballot(['fill'], partly))).toBe('silent');
		expect(under(elsewhere as Clause, ballot(['check'], partly))).toBe('vote');
		expect(under(elsewhere as Clause, ballot([], partly))).toBe('refer');
	});
});

describe('whatever the marks', () => {
	test('the order of clauses changes nothing in the trace either', () => {
		fc.assert(
			fc.property(everySet, anyBallot, (rulebook, spec) => {
				const facts = picture(spec);
				const turned = { ...rulebook, clauses: rulebook.clauses.toReversed() };
				expect(evaluate(turned, facts)).toEqual(evaluate(rulebook, facts));
			}),
			{ numRuns: 30 }
		);
	});

	test('what is missing in a trace is a key of the list', () => {
		const keys = new Set(MISSING_KEYS.flatMap((key) => [key, `unsure.${key}`]));
		fc.assert(
			fc.property(everySet, anyBallot, (rulebook, spec) => {
				const { contests, ballot } = evaluate(rulebook, picture(spec));
				for (const { missing, result } of [...[...contests.values()].flatMap(({ trace }) => trace), ...ballot.trace]) {
					if (result === 'not-met') expect(missing).toBeDefined();
					if (missing !== undefined) expect(keys).toContain(missing);
				}
			})
		);
	});

	test('a statement goes to another thread, or into JSON, with its trace', () => {
		const people = evaluate(book([vote]), one({ A: 'fill', B: 'cross' }));
		const statement = people.contests.get('contest');
		const steps = ['vote applied A', 'vote not-met B mark.kind'];
		const told = (copy: typeof statement) =>
			copy?.trace.map(({ clause, result, choice, missing }) =>
				[clause, result, choice, missing].filter(Boolean).join(' ')
			);
		expect(told(statement)).toEqual(steps);
		expect(told(structuredClone(statement))).toEqual(steps);
		expect(told(JSON.parse(JSON.stringify(statement)) as typeof statement)).toEqual(steps);
	});

	test('nothing that was passed in is changed', () => {
		fc.assert(
			fc.property(everySet, anyBallot, (rulebook, spec) => {
				const facts = picture(spec);
				const before = structuredClone([rulebook, facts]);
				evaluate(rulebook, facts);
				expect([rulebook, facts]).toEqual(before);
			}),
			{ numRuns: 20 }
		);
	});
});
