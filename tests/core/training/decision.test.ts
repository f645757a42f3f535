import { describe, expect, test } from 'vitest';
import type { PeopleOutcome } from '$core/reading/statement';
import { categoryOf, decisionKey, decisionOf } from '$core/training/decision';
import { election } from './table';

const pies = election.contests.find(({ id }) => id === 'best-pie')!;

describe('a verdict as a decision', () => {
	test.each<[PeopleOutcome, readonly string[], boolean, string]>([
		['vote', ['apple'], true, 'vote:apple'],
		['vote', [], true, 'no-vote'],
		['undervote', ['apple'], true, 'vote:apple'],
		['undervote', [], false, 'blank'],
		['undervote', [], true, 'no-vote'],
		['overvote', [], true, 'too-many'],
		['blank', [], false, 'blank'],
		['no-vote', [], true, 'no-vote'],
		['void-contest', [], true, 'no-vote'],
		['refer', [], true, 'refer'],
		['silent', [], true, 'refer']
	])('%s with %j, marked: %s, is %s', (outcome, votes, isMarked, key) => {
		expect(decisionKey(decisionOf({ outcome, votes }, isMarked))).toBe(key);
	});

	test('is the same whatever the order in which choices are named', () => {
		expect(decisionKey({ outcome: 'vote', votes: ['b', 'a'] })).toBe(
			decisionKey({ outcome: 'vote', votes: ['a', 'b'] })
		);
	});

	test('has a category that contests share: the rows voted for', () => {
		expect(categoryOf({ outcome: 'vote', votes: ['cherry', 'apple'] }, pies)).toBe('vote:1+2');
		expect(categoryOf({ outcome: 'blank' }, pies)).toBe('blank');
		expect(() => categoryOf({ outcome: 'vote', votes: ['otter'] }, pies)).toThrow(/best-pie/);
	});
});
