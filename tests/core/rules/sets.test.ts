import { Ajv2020 } from 'ajv/dist/2020.js';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { checkRulebook } from '$core/rules/checkRulebook';
import { evaluate } from '$core/rules/evaluate';
import schema from '../../../static/schema/rulebook.json' with { type: 'json' };
import { picture } from './picture';
import { anyBallot } from './scattered';
import { SETS } from './sets';

const fits = new Ajv2020({ strict: true, strictRequired: false, strictTypes: false, allErrors: true }).compile(schema);

/** Words that promise a voter what only the office can say. */
const PROMISES = /\bcounts?\b|\bcounted\b|\bvalid\b|\bválid[oa]s?\b|\bcuenta[n]?\b/i;

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
		fc.assert(
			fc.property(anyBallot, (spec) => {
				const { contests, ballot } = evaluate(rulebook, picture(spec));
				const known = new Set(rulebook.clauses.map((clause) => clause.id));
				for (const { outcome, clauses, votes, trace } of contests.values()) {
					if (outcome === 'silent') expect(clauses).toEqual([]);
					else if (outcome !== 'blank') expect(clauses.length).toBeGreaterThan(0);
					if (outcome !== 'vote') expect(votes).toEqual([]);
					for (const clause of clauses) expect(known.has(clause.id)).toBe(true);
					for (const clause of clauses) expect(trace.map((step) => step.clause)).toContain(clause.id);
				}
				if (ballot.outcome !== 'none' && ballot.outcome !== 'silent') expect(ballot.clauses.length).toBeGreaterThan(0);
			}),
			{ numRuns: 60 }
		);
	});
});
