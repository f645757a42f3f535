import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Contest } from '$core/election/election';
import type { PageMarks, TargetLevel } from '$core/marks/mark';
import { readMachine } from '$core/reading/readMachine';

const LETTERS = ['a', 'b', 'c', 'd'];
const contestFor = (voteFor: number, ranks?: number): Contest => ({
	id: 'pies',
	kind: ranks === undefined ? 'candidates' : 'ranked',
	title: { en: 'Pies' },
	voteFor,
	...(ranks === undefined ? {} : { ranks }),
	choices: LETTERS.map((id) => ({ id, kind: 'candidate', name: { en: id } }))
});

const pageWith = (
	levels: readonly TargetLevel[],
	rankOf: (i: number) => number | undefined = () => undefined
): PageMarks => ({
	page: 1,
	marks: [],
	targets: levels.map((level, i) => {
		const rank = rankOf(i);
		const choice = LETTERS[i % LETTERS.length] ?? 'a';
		return {
			contest: 'pies',
			choice,
			page: 1,
			fill: 0,
			darkness: 0,
			score: 0,
			level,
			...(rank === undefined ? {} : { rank })
		};
	})
});

const anyLevels = fc.array(fc.constantFrom<TargetLevel>('dark', 'unsure', 'empty'), { minLength: 4, maxLength: 4 });

describe('what a machine sees in a contest', () => {
	test.each<[string, number, TargetLevel[], string, string[]]>([
		['one dark of one is read', 1, ['empty', 'dark', 'empty', 'empty'], 'read', ['b']],
		['one dark of two is an undervote with its vote', 2, ['empty', 'dark', 'empty', 'empty'], 'undervote', ['b']],
		['two dark of one is an overvote with no vote', 1, ['dark', 'dark', 'empty', 'empty'], 'overvote', []],
		['nothing is blank', 1, ['empty', 'empty', 'empty', 'empty'], 'blank', []],
		['an unsure target decides an open contest', 1, ['unsure', 'empty', 'empty', 'empty'], 'unsure', []],
		[
			'an unsure target beside enough dark ones may tip it over',
			1,
			['dark', 'unsure', 'empty', 'empty'],
			'unsure',
			['a']
		],
		['an unsure target cannot change an overvote', 1, ['dark', 'dark', 'unsure', 'empty'], 'overvote', []]
	])('%s', (_, voteFor, levels, state, votes) => {
		expect(readMachine(contestFor(voteFor), [pageWith(levels)])).toMatchObject({ state, votes });
	});

	test('never more votes than allowed, and only dark targets are votes', () => {
		fc.assert(
			fc.property(anyLevels, fc.integer({ min: 1, max: 4 }), (levels, voteFor) => {
				const { votes, state } = readMachine(contestFor(voteFor), [pageWith(levels)]);
				expect(votes.length).toBeLessThanOrEqual(voteFor);
				expect(votes.every((id) => levels[LETTERS.indexOf(id)] === 'dark')).toBe(true);
				expect(state === 'blank').toBe(levels.every((level) => level === 'empty'));
			})
		);
	});

	test('targets of other contests are not its own', () => {
		const other = { ...contestFor(1), id: 'parks' };
		expect(readMachine(other, [pageWith(['dark', 'empty', 'empty', 'empty'])])).toEqual({
			state: 'blank',
			votes: [],
			targets: []
		});
	});
});

describe('what a machine sees in a ranked contest', () => {
	const rankOf = (i: number): number => Math.floor(i / LETTERS.length) + 1;

	test('votes come in the order of rank', () => {
		const levels: TargetLevel[] = ['empty', 'empty', 'dark', 'empty', 'dark', 'empty', 'empty', 'empty'];
		expect(readMachine(contestFor(1, 2), [pageWith(levels, rankOf)])).toMatchObject({
			state: 'read',
			votes: ['c', 'a']
		});
	});

	test('two choices at one rank are an overvote', () => {
		const levels: TargetLevel[] = ['dark', 'dark', 'empty', 'empty', 'empty', 'empty', 'empty', 'empty'];
		expect(readMachine(contestFor(1, 2), [pageWith(levels, rankOf)])).toMatchObject({ state: 'overvote', votes: [] });
	});
});
