import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { agreementByGround, agreementOf, differences, type Judged } from '$core/training/agreement';

const judged = (categories: readonly string[], grounds: readonly string[] = ['rule']): readonly Judged[] =>
	categories.map((category, i) => ({ case: `case-${i}`, category, grounds }));

/** Two people's decisions on the same cases, as a table of how often each pair came up. */
const fromTable = (table: readonly (readonly [one: string, other: string, times: number])[]) => {
	const pairs = table.flatMap(([one, other, times]) => Array.from({ length: times }, () => [one, other] as const));
	return [judged(pairs.map(([one]) => one)), judged(pairs.map(([, other]) => other))] as const;
};

const category = fc.constantFrom('vote:1', 'vote:2', 'no-vote', 'too-many', 'blank', 'refer');
const two = fc.array(fc.tuple(category, category), { minLength: 1, maxLength: 60 }).map((pairs) => ({
	one: judged(pairs.map(([a]) => a)),
	other: judged(pairs.map(([, b]) => b))
}));

describe('agreement between two', () => {
	// Worked by hand from the formula: po = (20 + 15) / 50 = 0.7; pe = (25·30 + 25·20) / 2500 = 0.5.
	test('is 70 % and kappa 0.4 for a table worked by hand', () => {
		const [one, other] = fromTable([
			['yes', 'yes', 20],
			['yes', 'no', 5],
			['no', 'yes', 10],
			['no', 'no', 15]
		]);
		const { cases, agreed, rate, kappa } = agreementOf(one, other);
		expect([cases, agreed, rate]).toEqual([50, 35, 0.7]);
		expect(kappa).toBeCloseTo(0.4, 12);
	});

	// Three categories, by hand: po = 0.29 + ... on 100 cases: diagonal 44 + 20 + 6 = 70; pe from the margins below.
	test('is worked out over three categories as well', () => {
		const [one, other] = fromTable([
			['a', 'a', 44],
			['a', 'b', 5],
			['a', 'c', 1],
			['b', 'a', 7],
			['b', 'b', 20],
			['b', 'c', 3],
			['c', 'a', 9],
			['c', 'b', 5],
			['c', 'c', 6]
		]);
		const byChance = (50 * 60 + 30 * 30 + 20 * 10) / 10_000;
		expect(agreementOf(one, other).kappa).toBeCloseTo((0.7 - byChance) / (1 - byChance), 12);
	});

	test('has no kappa where both always say the same one thing, and none without cases', () => {
		expect(agreementOf(judged(['a', 'a']), judged(['a', 'a']))).toEqual({
			cases: 2,
			agreed: 2,
			rate: 1,
			kappa: undefined
		});
		expect(agreementOf([], [])).toEqual({ cases: 0, agreed: 0, rate: undefined, kappa: undefined });
	});

	test('leaves out what only one has decided', () => {
		expect(agreementOf(judged(['a', 'b', 'a']), judged(['a', 'a'])).cases).toBe(2);
		expect(differences(judged(['a', 'b', 'a']), judged(['a', 'a']))).toEqual(['case-1']);
	});

	test('is the same whichever of the two is asked first', () => {
		fc.assert(
			fc.property(two, ({ one, other }) => {
				expect(agreementOf(one, other)).toEqual(agreementOf(other, one));
			})
		);
	});

	test('has a kappa of at most 1, of 1 only in full agreement, and never above the rate', () => {
		fc.assert(
			fc.property(two, ({ one, other }) => {
				const { rate, kappa } = agreementOf(one, other);
				if (kappa === undefined) return;
				expect(kappa).toBeGreaterThanOrEqual(-1 - 1e-12);
				expect(kappa).toBeLessThanOrEqual(rate! + 1e-12);
				expect(kappa === 1).toBe(rate === 1);
			})
		);
	});

	test('does not change with other names for the categories, or another order of the cases', () => {
		fc.assert(
			fc.property(two, fc.integer(), ({ one, other }, by) => {
				const renamed = (list: readonly Judged[]) => list.map((each) => ({ ...each, category: `~${each.category}` }));
				const turned = (list: readonly Judged[]) => list.map((_, i) => list[(i + Math.abs(by)) % list.length]!);
				expect(agreementOf(renamed(one), renamed(other))).toEqual(agreementOf(one, other));
				expect(agreementOf(turned(one), other)).toEqual(agreementOf(one, other));
			})
		);
	});

	test('of one with themselves is full, and nothing differs', () => {
		fc.assert(
			fc.property(two, ({ one }) => {
				expect(agreementOf(one, one).rate).toBe(1);
				expect(differences(one, one)).toEqual([]);
			})
		);
	});

	test('and differences make up all cases', () => {
		fc.assert(
			fc.property(two, ({ one, other }) => {
				const { cases, agreed } = agreementOf(one, other);
				expect(agreed + differences(one, other).length).toBe(cases);
			})
		);
	});
});

describe('agreement by what decides', () => {
	test('puts a case that two clauses decide with both, and keeps the order in which they are met', () => {
		const one: readonly Judged[] = [
			{ case: '1', category: 'a', grounds: ['r2', 'r1'] },
			{ case: '2', category: 'b', grounds: ['r1'] }
		];
		const other: readonly Judged[] = [
			{ case: '1', category: 'a', grounds: [] },
			{ case: '2', category: 'a', grounds: [] }
		];
		expect(agreementByGround(one, other).map(({ ground, cases, agreed }) => [ground, cases, agreed])).toEqual([
			['r2', 1, 1],
			['r1', 2, 1]
		]);
	});

	test('adds up to the whole where each case has one', () => {
		fc.assert(
			fc.property(two, fc.array(fc.constantFrom('r1', 'r2', 'r3'), { minLength: 60, maxLength: 60 }), (pair, rules) => {
				const one = pair.one.map((each, i) => ({ ...each, grounds: [rules[i]!] }));
				const parts = agreementByGround(one, pair.other);
				const whole = agreementOf(one, pair.other);
				const sum = (of: 'cases' | 'agreed') => parts.reduce((total, part) => total + part[of], 0);
				expect([sum('cases'), sum('agreed')]).toEqual([whole.cases, whole.agreed]);
			})
		);
	});
});
