import { describe, expect, test } from 'vitest';
import { endOf } from '$core/election/dates';
import { county, fair } from '$core/election/demo';
import type { Contest, Election } from '$core/election/election';
import { sayOn } from '$core/election/sayOn';

/** Every text of an election in one language. */
function* textsIn(value: unknown, language: string): Generator<string> {
	if (typeof value !== 'object' || value === null) return;
	for (const [key, child] of Object.entries(value)) {
		if (key === language && typeof child === 'string') yield child;
		else yield* textsIn(child, language);
	}
}

/** Before all dates of an election, and when each of them has ended. */
const instants = (election: Election): readonly number[] => [
	0,
	...election.dates.map(({ id }) => endOf(election, id)!)
];

/** Vowel groups, without a silent final e: near enough for a grade over a whole text. */
const syllables = (word: string): number => Math.max(1, word.replace(/e$/, '').match(/[aeiouy]+/g)?.length ?? 0);

/** Flesch-Kincaid grade level (Kincaid et al. 1975, Research Branch Report 8-75). */
function grade(text: string): number {
	const sentences = text.split(/[.?!:]+\s|[.?!:]+$/).filter((sentence) => sentence.trim() !== '');
	const words = text.toLowerCase().match(/[a-z’']+/g) ?? [];
	const beats = words.reduce((sum, word) => sum + syllables(word), 0);
	return 0.39 * (words.length / sentences.length) + 11.8 * (beats / words.length) - 15.59;
}

describe('the demo files', () => {
	test('say that they are invented', () => {
		for (const { invented, dates } of [county, fair]) {
			expect(invented).toBe(true);
			for (const date of dates) expect(date).toMatchObject({ invented: true, cite: 'Demo rule, invented' });
		}
	});

	test('hold what a practice ballot has to show', () => {
		const of = (test: (contest: Contest) => boolean): number => county.contests.filter(test).length;
		expect(county.contests.length).toBeGreaterThanOrEqual(12);
		expect(of(({ kind, voteFor }) => kind === 'candidates' && voteFor === 1)).toBeGreaterThan(1);
		expect(of(({ voteFor }) => voteFor === 2)).toBeGreaterThan(0);
		expect(of(({ voteFor }) => voteFor === 3)).toBeGreaterThan(0);
		expect(of(({ kind }) => kind === 'measure')).toBe(2);
		expect(of(({ kind }) => kind === 'retention')).toBe(1);
		expect(of(({ choices }) => choices.some(({ kind }) => kind === 'write-in'))).toBeGreaterThan(3);
		expect(county.styles).toHaveLength(3);
		for (const { contests } of county.styles) {
			expect(contests.length).toBeGreaterThanOrEqual(9);
			expect(contests.length).toBeLessThanOrEqual(14);
		}
	});

	test('have partisan contests in one part of the county only', () => {
		const partisan = new Set(
			county.contests.filter(({ kind, party }) => kind === 'party-preference' || party).map(({ id }) => id)
		);
		expect(partisan.size).toBe(5);
		expect(county.styles.map(({ contests }) => contests.filter((id) => partisan.has(id)).length)).toEqual([5, 0, 0]);
	});

	test('name every contest, precinct and party at least once', () => {
		for (const { contests, precincts, styles } of [county, fair]) {
			expect(new Set(styles.flatMap((style) => style.contests))).toEqual(new Set(contests.map(({ id }) => id)));
			expect(new Set(styles.flatMap((style) => style.precincts))).toEqual(new Set(precincts.map(({ id }) => id)));
		}
	});

	test('never promise that a vote counts or is valid', () => {
		for (const election of [county, fair]) {
			for (const text of textsIn(election, 'en')) expect(text).not.toMatch(/\bcount(s|ed|ing)?\b|\bvalid\b/i);
			for (const text of textsIn(election, 'es')) expect(text).not.toMatch(/\b(cuenta|contar|contad[oa])\b|válid/i);
		}
	});

	test('instruct in English of grade 8 or below', () => {
		for (const election of [county, fair]) {
			const { instructions, answers, dates } = election;
			const sentences = [...textsIn([instructions, answers, dates], 'en')].map((text) =>
				text.replace(/[^.?!:]$/, '$&.')
			);
			expect(grade(sentences.join(' '))).toBeLessThanOrEqual(8);
			for (const nowUtcMs of instants(election))
				for (const step of Object.values(instructions.correction.steps).flat()) {
					const said = sayOn(election, step.en ?? '', nowUtcMs, 'en');
					expect(grade(said), said).toBeLessThanOrEqual(8);
				}
		}
	});
});
