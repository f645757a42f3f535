import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { check, type Installed } from '$core/election/check';
import { county, fair } from '$core/election/demo';
import { MOST_PROBLEMS } from '$core/election/report';
import { broken, FAULTS } from './corpus';

describe('check', () => {
	test('finds nothing to say about the two demo files', () => {
		expect(check(county)).toEqual([]);
		expect(check(fair)).toEqual([]);
	});

	test.each(FAULTS)('reports $name, there and nowhere else', ({ put, problems, sort }) => {
		const found = check(broken(put));
		expect(found.map(({ path }) => path).sort()).toEqual([...problems].sort());
		const severity = sort === 'open' ? 'unpublishable' : 'error';
		expect(found.filter((problem) => problem.severity !== severity)).toEqual([]);
	});

	test('gives ten problems for a file with ten faults, each at its path', () => {
		const found = check(
			broken({
				'title.es': undefined,
				date: '2027-09-31',
				'dates[3].time': '5pm',
				'target.widthPt': '18',
				'contests[7].voteFor': 9,
				'contests[8].choices[2].id': 'José',
				'contests[17].choices[0].answer': undefined,
				'styles[2].contests[5]': 'council',
				'thresholds.empty': 0.75,
				'page.columns': 4
			})
		);
		expect(found.map(({ path }) => path).sort()).toEqual([
			'contests[17].choices[0].answer',
			'contests[7].voteFor',
			'contests[8].choices[2].id',
			'date',
			'dates[3].time',
			'page.columns',
			'styles[2].contests[5]',
			'target.widthPt',
			'thresholds.empty',
			'title.es'
		]);
	});

	test('knows which languages and rulebooks are installed only where it is told', () => {
		const paths = (installed?: Installed): string[] => check(county, installed).map(({ path }) => path);
		expect(paths()).toEqual([]);
		expect(paths({ languages: county.languages, rulebooks: [county.rulebook] })).toEqual([]);
		expect(paths({ languages: ['en'], rulebooks: ['other'] })).toEqual(['languages[1]', 'rulebook']);
		expect(paths({ languages: [], rulebooks: [] })).toEqual(['languages[0]', 'languages[1]', 'rulebook']);
	});

	test('says in one sentence what was there, what was expected and what to do', () => {
		expect(check(broken({ 'target.shape': 'star' }))).toEqual([
			{
				path: 'target.shape',
				expected: 'one of "oval", "box", "arrow"',
				received: '"star"',
				severity: 'error',
				message: 'target.shape is "star", expected one of "oval", "box", "arrow". Use one of these.'
			}
		]);
		for (const { put } of FAULTS)
			for (const { message } of check(broken(put))) {
				expect(message).toMatch(/^\S.*\.$/s);
				expect(message.length).toBeLessThan(400);
			}
	});

	test('takes markup in a name as the text it is', () => {
		expect(check(broken({ 'contests[5].choices[0].name.en': '<b onclick="x()">Fenwright</b>' }))).toEqual([]);
	});

	test('does not take what an object inherits for a field of the file', () => {
		const paths = check(broken({ 'styles[0].contests[0]': 'constructor', 'contests[3].party': 'valueof' })).map(
			({ path }) => path
		);
		expect(paths.sort()).toEqual(['contests[3].party', 'styles[0].contests[0]']);
		expect(check(JSON.parse('{"__proto__": {"format": "fairhand-election/1"}}')).map(({ path }) => path)).toContain(
			'format'
		);
	});

	test('never throws, whatever the JSON', () => {
		fc.assert(
			fc.property(fc.jsonValue({ maxDepth: 6 }), (value) => {
				expect(check(value).length).toBeGreaterThan(0);
			}),
			{ seed: 20270914, numRuns: 500 }
		);
	});

	test('leaves out what comes after a thousand problems, and says so', () => {
		const found = check(broken({ 'contests[5].choices': Array.from({ length: 9000 }, () => 1) }));
		expect(found).toHaveLength(MOST_PROBLEMS + 1);
		expect(found.at(-1)?.message).toMatch(/more than 1000 problems/);
	});

	test('does not look into a list that is too long to be meant', () => {
		const found = check(broken({ precincts: Array.from({ length: 10_001 }, () => 1) }));
		expect(found[0]?.path).toBe('precincts');
		expect(found.some(({ path }) => path.startsWith('precincts['))).toBe(false);
	});
});
