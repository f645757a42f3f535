import { Ajv2020 } from 'ajv/dist/2020.js';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { checkRulebook } from '$core/rules/checkRulebook';
import { evaluate, type PeopleDecision } from '$core/rules/evaluate';
import schema from '../../../static/schema/rulebook.json' with { type: 'json' };
import { picture } from './picture';
import { anyBallot, anyContest } from './scattered';
import { SETS } from './sets';

const fits = new Ajv2020({ strict: true, strictRequired: false, strictTypes: false, allErrors: true }).compile(schema);

/** Words that promise a voter what only the office can say. */
const PROMISES = /\bcounts?\b|\bcounted\b|\bvalid\b|\bválid[oa]s?\b|\bcuenta[n]?\b/i;

/** A few for each rulebook: they are many, and each run decides a whole ballot. */
const RUNS = 15;

const BLANK = { id: 'blank', choices: { A: '', B: '' } };

/** All that was said of a ballot, without the steps that led there. */
const saidBy = ({ contests, ballot }: PeopleDecision) => [
	...[...contests].map(
		([id, { outcome, votes, clauses, decides, wouldLook }]) =>
			[id, { outcome, votes, clauses, decides, wouldLook }] as const
	),
	['', { outcome: ballot.outcome, clauses: ballot.clauses, decides: ballot.decides }] as const
];

describe.each(SETS)('the rulebook %s', (id, rulebook) => {
	test('has no faults, fits the schema and is named like its file', () => {
		expect(checkRulebook(rulebook)).toEqual([]);
		expect(fits(rulebook), JSON.stringify(fits.errors)).toBe(true);
		expect(rulebook.id).toBe(id);
	});

	test('never promises in its plain sentences that a vote counts', () => {
		const said = rulebook.clauses.flatMap(({ plain }) => Object.values(plain));
		expect(said.filter((sentence) => PROMISES.test(sentence.replaceAll(/counted by hand|hand.counted/g, '')))).toEqual(
			[]
		);
	});

	test('decides every set of marks, and cites a clause wherever it says something', () => {
		const known = new Set(rulebook.clauses.map((clause) => clause.id));
		fc.assert(
			fc.property(anyBallot, (spec) => {
				const { contests, ballot } = evaluate(rulebook, picture(spec));
				for (const { outcome, clauses, votes, trace } of contests.values()) {
					if (outcome === 'silent') expect(clauses).toEqual([]);
					else if (outcome !== 'blank') expect(clauses.length).toBeGreaterThan(0);
					if (outcome !== 'vote') expect(votes).toEqual([]);
					const traced = new Set(trace.map((step) => step.clause));
					expect(clauses.filter(({ id }) => !known.has(id) || !traced.has(id))).toEqual([]);
				}
				if (ballot.outcome !== 'none' && ballot.outcome !== 'silent') expect(ballot.clauses.length).toBeGreaterThan(0);
			}),
			{ numRuns: RUNS }
		);
	});

	test('says the same whatever the order of its clauses', () => {
		fc.assert(
			fc.property(anyBallot, fc.infiniteStream(fc.nat()), (spec, keys) => {
				const shuffled = rulebook.clauses
					.map((one) => [keys.next().value as number, one] as const)
					.sort(([a], [b]) => a - b)
					.map(([, one]) => one);
				const facts = picture(spec);
				expect(saidBy(evaluate({ ...rulebook, clauses: shuffled }, facts))).toEqual(saidBy(evaluate(rulebook, facts)));
			}),
			{ numRuns: RUNS }
		);
	});

	test('says the same where a contest is left blank elsewhere', () => {
		fc.assert(
			fc.property(anyBallot, (spec) => {
				const before = evaluate(rulebook, picture(spec));
				const after = evaluate(rulebook, picture({ ...spec, contests: [...spec.contests, BLANK] }));
				expect(saidBy(after).filter(([id]) => id !== BLANK.id)).toEqual(saidBy(before));
			}),
			{ numRuns: RUNS }
		);
	});

	test('says the same of choices that are renamed and printed in another order', () => {
		fc.assert(
			fc.property(anyContest, fc.integer({ min: 1, max: 3 }), (contest, places) => {
				const names = Object.keys(contest.choices);
				const turned = [...names.slice(places), ...names.slice(0, places)];
				const choices = Object.fromEntries(turned.map((name) => [name, contest.choices[name] ?? '']));
				const renamed = JSON.parse(JSON.stringify({ ...contest, choices }).replaceAll('"A"', '"Z"')) as typeof contest;
				const of = (given: typeof contest) =>
					evaluate(rulebook, picture({ contests: [{ ...given, id: 'contest' }] })).contests.get('contest');
				const [before, after] = [of(contest), of(renamed)];
				const back = after?.votes.map((name) => (name === 'Z' ? 'A' : name)) ?? [];
				expect([after?.outcome, after?.clauses]).toEqual([before?.outcome, before?.clauses]);
				// A ranking keeps its order; elsewhere votes come in the order of the sheet.
				if (contest.kind === 'ranked') expect(back).toEqual(before?.votes);
				else expect(back.toSorted()).toEqual(before?.votes.toSorted());
			}),
			{ numRuns: RUNS }
		);
	});
});
