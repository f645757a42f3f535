import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { leastCertain } from '$core/advice/leastCertain';
import { county } from '$core/election/demo';
import type { PageMarks, TargetLevel } from '$core/marks/mark';
import { pageOf } from './support';

const { thresholds } = county;
const levelOf = (score: number): TargetLevel =>
	score >= thresholds.dark ? 'dark' : score < thresholds.empty ? 'empty' : 'unsure';
const withScores = (scores: readonly number[]): PageMarks => ({
	page: 1,
	marks: [],
	targets: scores.map((score, i) => ({
		contest: 'treasurer',
		choice: `c${i}`,
		page: 1,
		fill: score,
		darkness: score,
		score,
		level: levelOf(score)
	}))
});

describe('the least certain first', () => {
	test('one between the thresholds comes before one just over, and that before a full one', () => {
		const order = leastCertain([withScores([1, 0.4, 0.55, 0.1])], thresholds).map(({ target }) => target?.choice);
		expect(order).toEqual(['c1', 'c2', 'c3', 'c0']);
	});

	test('a mark in a target is listed with it, a mark elsewhere by itself, an empty target not at all', () => {
		const page = pageOf({
			levels: { 'treasurer/fenwright': 'dark' },
			marks: [
				['treasurer', 'fenwright', 'check', 'in-target'],
				['treasurer', 'quillonby', 'ring', 'on-name']
			]
		});
		const found = leastCertain([page], thresholds);
		expect(found.map(({ target, marks }) => [target?.choice, marks.map(({ id }) => id)])).toEqual([
			['fenwright', ['m1']],
			[undefined, ['m2']]
		]);
	});

	test('certainty is from 0 to 1 and never falls down the list', () => {
		fc.assert(
			fc.property(fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 12 }), (scores) => {
				const found = leastCertain([withScores(scores)], thresholds).map(({ certainty }) => certainty);
				expect(found.every((one) => one >= 0 && one <= 1)).toBe(true);
				expect([...found].sort((a, b) => a - b)).toEqual(found);
			})
		);
	});
});
