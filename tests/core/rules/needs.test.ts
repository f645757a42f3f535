import fc from 'fast-check';
import { expect, test } from 'vitest';
import { MARK_KINDS, MARK_PLACES } from '$core/marks/mark';
import { compileCondition } from '$core/rules/compile';
import type { BallotFacts } from '$core/rules/facts';
import { mayHold, needsOf } from '$core/rules/needs';
import type { Condition, Rulebook } from '$core/rules/rule';
import { testCondition } from '$core/rules/testCondition';
import { NO } from '$core/rules/truth';
import { SAYINGS } from '$core/rules/vocabulary';
import { one, picture } from './picture';
import { anyBallot } from './scattered';

const some = <T>(list: readonly T[]) => fc.uniqueArray(fc.constantFrom(...list), { minLength: 1, maxLength: 3 });

const pattern = fc.record(
	{
		kind: some(MARK_KINDS),
		place: some(MARK_PLACES),
		says: some(SAYINGS),
		touches: fc.constantFrom('one' as const, 'several' as const)
	},
	{ requiredKeys: [] }
);

const SINGLE: readonly Condition[] = [
	{ always: true },
	{ struck: true },
	{ erased: true },
	{ supported: true },
	{ written: true },
	{ named: true },
	{ technique: 'throughout' },
	{ technique: 'elsewhere' },
	{ choice: 'candidate' },
	{ target: { level: 'dark' } },
	{ target: { level: ['unsure', 'empty'] } },
	{ target: { fillAtLeast: 0.4 } },
	{ target: { fillBelow: 0.5 } },
	{ leftUnstruck: 'within-limit' },
	{ mark: {} },
	{ mark: { kind: 'fill', place: 'in-target' } },
	{ mark: { place: 'write-in', says: 'name' } }
];

/** Conditions of choice clauses, nested. */
const anyCondition = fc.letrec<{ part: Condition }>((tie) => {
	const parts = fc.array(tie('part'), { minLength: 1, maxLength: 3 });
	return {
		part: fc.oneof(
			{ maxDepth: 3 },
			pattern.map((mark): Condition => ({ mark })),
			fc.constantFrom(...SINGLE),
			parts.map((all): Condition => ({ all })),
			parts.map((any): Condition => ({ any })),
			tie('part').map((not): Condition => ({ not })),
			tie('part').map((other): Condition => ({ other }))
		)
	};
}).part;

const rulebook = { switches: {} } as Rulebook;

/** Tests a condition at every choice that would be passed over; gives how many. */
function testPassedOver(condition: Condition, ballot: BallotFacts): number {
	const when = compileCondition(condition);
	const needs = needsOf(when);
	let passedOver = 0;
	for (const contest of ballot.contests)
		for (const cell of contest.choices) {
			if (mayHold(needs, cell)) continue;
			passedOver += 1;
			const at = { rulebook, ballot, contest, tally: undefined, looked: true, decided: [] };
			const marks = cell.marks.map(({ kind, place }) => `${kind} ${place}`).join(', ');
			expect(testCondition(when, at, cell), `${JSON.stringify(condition)} at ${marks || 'nothing'}`).toBe(NO);
		}
	return passedOver;
}

test('a choice that is passed over untested is one where the condition does not hold, for each word and each mark', () => {
	const marked = MARK_KINDS.flatMap((kind) =>
		MARK_PLACES.flatMap((place) =>
			[0.2, 0.9].flatMap((confidence) =>
				(['dark', 'empty'] as const).map((level) => {
					const words = level === 'dark' && confidence > 0.5 ? {} : { says: 'name' as const };
					const marks = [{ kind, place, confidence, ...words }];
					return one({ A: { marks, level, fill: 0.3 }, B: 'fill', W: { marks, level }, C: { marks: [], level } });
				})
			)
		)
	);
	for (const condition of SINGLE) for (const ballot of marked) testPassedOver(condition, ballot);
});

test('a choice that is passed over untested is one where the condition does not hold, for conditions in each other', () => {
	let passedOver = 0;
	fc.assert(
		fc.property(anyCondition, anyBallot, (condition, spec) => {
			passedOver += testPassedOver(condition, picture(spec));
		}),
		{ numRuns: 300 }
	);
	expect(passedOver).toBeGreaterThan(500);
});
