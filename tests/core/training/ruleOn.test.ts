import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Rulebook } from '$core/rules/rule';
import demoCounty from '$core/rules/sets/demo-county.json';
import { deal } from '$core/training/deal';
import { decisionOf } from '$core/training/decision';
import { factsOfCase, readQueue } from '$core/training/reviewQueue';
import { stackOf } from '$core/training/reviewRecord';
import { judgedAs, ruleOn } from '$core/training/ruleOn';
import { tableVerdict, UNSETTLED } from '$core/training/tableVerdict';
import { cases, election, sheets } from './table';

const demo = demoCounty as unknown as Rulebook;
const queue = readQueue(cases, election, sheets.en, 30);
const table = { stack: stackOf(cases), election, layouts: sheets.en, queue };

describe('a rulebook asked about a case', () => {
	test('says what it says of the same facts, and what a machine would see', () => {
		for (const one of queue) {
			const ruled = ruleOn(one.id, table, demo);
			const [verdict] = tableVerdict(demo, factsOfCase(one, election, sheets.en[one.contest]!)).contests;
			expect([one.id, ruled.ruling]).toEqual([one.id, decisionOf(verdict!, one.found.marks.length > 0)]);
			expect(ruled.machine.targets).toEqual(one.found.targets);
			expect(ruled.isSettled).toBe(!ruled.grounds.includes(UNSETTLED) && ruled.ruling.outcome !== 'refer');
		}
	});

	test('makes a decision comparable, with what decides the case', () => {
		const ruled = ruleOn(queue[0]!.id, table, demo);
		expect(judgedAs(ruled, { outcome: 'blank' })).toEqual({
			case: queue[0]!.id,
			category: 'blank',
			grounds: ruled.grounds
		});
	});

	test('refuses a case that the table was not dealt', () => {
		expect(() => ruleOn('nothing-99', table, demo)).toThrow(/30 dealt, got "nothing-99"/);
	});
});

describe('a deal', () => {
	const hundred = Array.from({ length: 100 }, (_, i) => i);

	test('is the beginning of the queue, or any of it in the queue’s order', () => {
		expect(deal(hundred, 3)).toEqual([0, 1, 2]);
		fc.assert(
			fc.property(fc.integer({ min: 1, max: 120 }), fc.integer(), (count, seed) => {
				const dealt = deal(hundred, count, seed);
				expect(dealt).toHaveLength(Math.min(100, count));
				expect([...new Set(dealt)].sort((a, b) => a - b)).toEqual(dealt);
			})
		);
		expect(deal(hundred, 10, 1)).not.toEqual(deal(hundred, 10, 2));
	});
});
