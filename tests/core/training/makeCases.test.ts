import { describe, expect, test } from 'vitest';
import { caseInk } from '$core/training/caseInk';
import { makeCases, shuffled } from '$core/training/makeCases';
import { RECIPES } from '$core/training/recipes';
import { randomFrom } from '$core/random';
import { cases, election, sheets } from './table';

describe('the cases of a review table', () => {
	test('are more than a table is dealt, of every recipe, and never twice the same', () => {
		expect(cases.length).toBeGreaterThan(120);
		const recipes = new Set(cases.map(({ id }) => id.replace(/-\d+$/, '')));
		expect([...recipes].sort()).toEqual(RECIPES.map(({ id }) => id).sort());
		expect(new Set(cases.map(({ id }) => id)).size).toBe(cases.length);
		const drawn = cases.map((one) => JSON.stringify([one.contest, caseInk(one, sheets.en[one.contest]!)]));
		expect(new Set(drawn).size).toBe(cases.length);
	});

	test('are the same every time, and others with another seed', () => {
		expect(makeCases(election.contests)).toEqual(cases);
		expect(makeCases(election.contests, 4, 8)).not.toEqual(cases);
	});

	test('stand on contests about pies and parks, never on a person or a party', () => {
		expect(election.kind).toBe('neutral');
		expect(election.parties).toEqual([]);
		expect(new Set(cases.map(({ contest }) => contest)).size).toBe(election.contests.length);
	});

	test('can be decided by a digit for each choice', () => {
		expect(Math.max(...election.contests.map(({ choices }) => choices.length))).toBeLessThanOrEqual(6);
	});

	test.each(['en', 'es'] as const)('keep their ink on the page: %s', (lang) => {
		for (const one of cases) {
			const { widthPt, heightPt } = sheets[lang][one.contest]!.pages[0]!;
			const points = caseInk(one, sheets[lang][one.contest]!).flatMap((stroke) => stroke.points);
			const off = points.filter(([x, y]) => x < 0 || y < 0 || x > widthPt || y > heightPt);
			expect([one.id, off]).toEqual([one.id, []]);
		}
	});

	test('refuse a ballot that a recipe has no contest for', () => {
		expect(() => makeCases(election.contests.filter(({ voteFor }) => voteFor === 1))).toThrow(/several-seats/);
	});

	test('draw less ink for a smaller share of the same way', () => {
		const one = cases.find(({ id }) => id.startsWith('unfinished-fill'))!;
		const lengthAt = (share: number): number =>
			caseInk({ ...one, marks: one.marks.map((mark) => ({ ...mark, share })) }, sheets.en[one.contest]!).flatMap(
				({ points }) => points
			).length;
		expect(lengthAt(0.2)).toBeLessThan(lengthAt(0.6));
		expect(lengthAt(0.6)).toBeLessThan(lengthAt(1));
	});
});

test('a shuffle keeps every entry, and is not always the same', () => {
	const list = [1, 2, 3, 4, 5, 6, 7, 8];
	const orders = [1, 2, 3].map((seed) => shuffled(list, randomFrom(seed)));
	for (const order of orders) expect([...order].sort()).toEqual(list);
	expect(new Set(orders.map(String)).size).toBeGreaterThan(1);
});
