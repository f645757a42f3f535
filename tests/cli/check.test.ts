import { describe, expect, test } from 'vitest';
import { countyWithAnswers as county } from '$core/answers/demoCounty';
import type { Answer, Election } from '$core/election/election';
import { fairhand, fileWith } from './run';

interface Line {
	readonly path: string;
	readonly expected: string;
	readonly received: string;
	readonly severity: string;
	readonly message: string;
}

const check = (election: Election): { code: number; lines: Line[] } => {
	const { code, lines } = fairhand('check', fileWith('election.json', election));
	return { code, lines: lines.map((line) => JSON.parse(line) as Line) };
};
const withAnswer = (id: string, change: Partial<Answer>): Election => ({
	...county,
	answers: county.answers.map((answer) => (answer.id === id ? { ...answer, ...change } : answer))
});

describe('fairhand check', () => {
	test('has nothing to say of a file whose answers are all there', () => {
		expect(check(county)).toEqual({ code: 0, lines: [] });
	});

	test('holds a file back whose answer is blank where offices say the opposite, and says whom to ask', () => {
		const { code, lines } = check(withAnswer('wrong-oval', { text: { en: '', es: '' } }));
		expect(code).toBe(0);
		expect(lines).toEqual([expect.objectContaining({ path: 'answers[15].text', severity: 'unpublishable' })]);
		expect(lines[0]?.message).toContain('there is no default');
	});

	test('holds it back too where nobody approved the answer, or it is not there', () => {
		expect(
			check(withAnswer('wrong-oval', { approvedBy: '' })).lines.map(({ path, severity }) => [path, severity])
		).toEqual([['answers[15].approvedBy', 'unpublishable']]);
		const without = { ...county, answers: county.answers.filter(({ id }) => id !== 'wrong-oval') };
		expect(check(without).lines).toEqual([expect.objectContaining({ path: 'answers', severity: 'unpublishable' })]);
	});

	test('names each language that no locale file has the words for, and the other verbs stop at it before they read', () => {
		const election = { ...county, languages: [...county.languages, 'fr', 'vi'] };
		const file = fileWith('languages.json', inAllLanguages(election));
		const { code, lines } = fairhand('check', file);
		const missing = lines.map((line) => JSON.parse(line) as Line).filter(({ severity }) => severity === 'error');
		expect(code).toBe(1);
		expect(missing.map(({ path }) => path)).toEqual(['languages[2]', 'languages[3]']);
		expect(missing[0]?.message).toContain('locales/fr.json');

		const read = fairhand('read', fileWith('blank.json', { page: 1, strokes: [] }), '--election', file);
		expect(read.code).not.toBe(0);
		expect(read.lines).toEqual([]);
		expect(read.errors.join(' ')).toContain('languages[2]');
	});

	test('names a rulebook that is not there, at its place among the other problems', () => {
		const { thresholds, date } = { thresholds: { ...county.thresholds, dark: 7 }, date: '2027-09-31' };
		const languages = [...county.languages, 'fr'];
		const file = { ...county, languages, rulebook: 'zzz', thresholds, date };
		const { code, lines } = check(inAllLanguages(file) as Election);
		expect(code).toBe(1);
		expect(lines.map(({ path }) => path)).toEqual(['languages[2]', 'date', 'rulebook', 'thresholds.dark']);
		expect(lines[2]).toMatchObject({ received: '"zzz"', severity: 'error' });
		expect(lines[2]?.expected).toMatch(/^one of "ca", "demo-county", .+ in all\)$/);
		expect(lines[2]?.message).toMatch(/^rulebook is "zzz", expected one of .+ "fairhand rulebooks" lists them/);
	});

	test('lists an id that no rulebook could have once', () => {
		expect(check({ ...county, rulebook: 'Zzz/../ca' }).lines.map(({ path }) => path)).toEqual(['rulebook']);
	});

	test('leaves to the other verbs what they can do without that rulebook: read under another, lay out', () => {
		const election = fileWith('rulebook.json', { ...county, rulebook: 'zzz' });
		const blank = fileWith('blank.json', { page: 1, strokes: [] });
		expect(fairhand('read', blank, '--election', election).code).toBe(1);
		expect(fairhand('read', blank, '--election', election, '--rulebook', 'us-ca').code).toBe(0);
		const own = 'src/core/rules/sets/us-ca.json';
		expect(fairhand('read', blank, '--election', election, '--rulebook', own).code).toBe(0);
		expect(fairhand('layout', '--election', election).code).toBe(0);
	});
});

/** Every text said in each language of the election: the English words stand in for a translation. */
function inAllLanguages(election: Election): unknown {
	const fill = (value: unknown): unknown => {
		if (Array.isArray(value)) return value.map(fill);
		if (typeof value !== 'object' || value === null) return value;
		const entries = Object.entries(value).map(([key, one]) => [key, fill(one)] as const);
		const { en } = Object.fromEntries(entries) as { en?: unknown };
		const said = en === undefined ? [] : election.languages.map((language) => [language, en] as const);
		return Object.fromEntries([...said, ...entries]);
	};
	return fill(election);
}
