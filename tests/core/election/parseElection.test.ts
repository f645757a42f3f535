import { describe, expect, test } from 'vitest';
import { county } from '$core/election/demo';
import { parseElection } from '$core/election/parseElection';
import { broken } from './corpus';

const parse = (document: unknown) => parseElection(JSON.stringify(document));

describe('parseElection', () => {
	test('gives the election of a good file, with or without a byte order mark', () => {
		expect(parse(county)).toEqual({ election: county, problems: [] });
		expect(parseElection(`\uFEFF${JSON.stringify(county)}`).election).toEqual(county);
	});

	test('gives no election where there is an error', () => {
		const { election, problems } = parse(broken({ 'page.columns': 4 }));
		expect(election).toBeUndefined();
		expect(problems.map(({ path }) => path)).toEqual(['page.columns']);
	});

	test('says on which line text stops being JSON', () => {
		const { election, problems } = parseElection('{\n\t"id": "x",\n\t"kind": primary\n}');
		expect(election).toBeUndefined();
		expect(problems).toHaveLength(1);
		expect(problems[0]?.message).toMatch(/line 3, column 10\b/);
		expect(parseElection('{\n"id": "x"').problems[0]?.message).toMatch(/line 2/);
		expect(parseElection('').problems).toHaveLength(1);
	});

	test('never fills in how a mistake is put right: an open answer stays open and holds publishing back', () => {
		const { election, problems } = parse(broken({ 'instructions.correction': undefined }));
		expect(problems.map(({ path, severity }) => [path, severity])).toEqual([
			['instructions.correction', 'unpublishable']
		]);
		expect(election?.instructions.correction).toEqual({
			method: 'undecided',
			steps: { holding: [], 'polling-place': [], mailed: [] },
			cite: ''
		});
	});

	test('keeps what a half-filled correction has, and marks the rest as open', () => {
		const put = { 'instructions.correction.method': '', 'instructions.correction.steps.mailed': undefined };
		const { election } = parse(broken(put));
		const { correction } = county.instructions;
		expect(election?.instructions.correction).toEqual({
			...correction,
			method: 'undecided',
			steps: { ...correction.steps, mailed: [] }
		});
	});

	test('folds a sheet in three where the file does not say', () => {
		expect(parse(broken({ 'page.foldsAt': undefined })).election?.page.foldsAt).toEqual([1 / 3, 2 / 3]);
		expect(parse(broken({ 'page.foldsAt': [] })).election?.page.foldsAt).toEqual([]);
	});

	test('holds on to its time and stack, however large or deep the text', () => {
		for (const deep of ['['.repeat(2_000_000), `${'['.repeat(500_000)}${']'.repeat(500_000)}`, '{"a":'.repeat(500_000)])
			expect(parseElection(deep).problems).toHaveLength(1);
		const text = JSON.stringify(county);
		const nested = text.replace('"id":"demo-county"', `"id":${'['.repeat(100_000)}${']'.repeat(100_000)}`);
		expect(parseElection(nested).problems.map(({ path }) => path)).toEqual(['id']);
		expect(parseElection(' '.repeat(17 * 1024 * 1024)).problems[0]?.message).toMatch(/longer than/);
		const many = JSON.stringify({ ...county, contests: Array.from({ length: 9000 }, () => ({ kind: 'measure' })) });
		expect(parseElection(many).problems.length).toBeLessThan(1100);
		// Generous on purpose: more would mean that time grows faster than the text.
	}, 30_000);
});
