import { mkdtempSync, readdirSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test, vi } from 'vitest';
import { county } from '$core/election/demo';
import { fairhand, fileWith } from './run';

// Each run is a process of its own: slow where other work shares the processor.
vi.setConfig({ testTimeout: 240_000 });

interface Expected {
	readonly about: string;
	readonly style: string;
	readonly printSize: string;
	readonly sheets: readonly {
		readonly name: string;
		readonly page: number;
		readonly targets: readonly { contest: string; choice: string; rank?: number; drawn: string; accept: string[] }[];
	}[];
}

const folder = mkdtempSync(join(tmpdir(), 'fairhand-deck-'));
const made = fairhand('deck', '--style', 'cairnwold', '--languages', 'es', '--out', folder);
const expectedFile = join(folder, 'expected.json');
const expected = JSON.parse(readFileSync(expectedFile, 'utf8')) as Expected;

/** A line as `read` prints it, of a sheet read as it was drawn; `change` tampers with a level. */
function lineOf(
	{ name, page, targets }: Expected['sheets'][number],
	change: (level: string, index: number) => string = (level) => level
): string {
	return JSON.stringify({
		file: `scans/${name}.jpg`,
		election: county.id,
		style: 'cairnwold',
		pages: [page],
		contests: targets.map(({ contest, choice, rank, accept }, i) => ({
			contest,
			machine: { targets: [{ choice, rank, score: 0.5, level: change(accept[0]!, i) }] }
		}))
	});
}
const summaryOf = (lines: readonly string[]) =>
	(JSON.parse(lines.at(-1)!) as { summary: Record<string, unknown> }).summary;

describe('deck', () => {
	test('writes every sheet with known marks and what they were drawn as, and says what it is not', () => {
		expect([made.code, made.errors]).toEqual([0, []]);
		const names = expected.sheets.map(({ name }) => `${name}.svg`);
		expect(readdirSync(folder).sort()).toEqual([...names, 'expected.json'].sort());
		expect(made.lines.map((line) => (JSON.parse(line) as { file: string }).file)).toEqual(
			[...names, 'expected.json'].map((name) => join(folder, name))
		);
		expect(expected).toMatchObject({ style: 'cairnwold', printSize: 'ordinary' });
		expect(expected.about).toContain('Not a logic and accuracy test');
		expect(fairhand('help').lines.join(' ')).toMatch(/not a logic and\s+accuracy test of voting equipment/);
	});

	test('finds nothing in readings that say what was drawn', () => {
		const readings = fileWith('right.jsonl', expected.sheets.map((sheet) => lineOf(sheet)).join('\n'));
		const { code, lines, errors } = fairhand('deck', '--compare', expectedFile, readings);
		expect([code, errors, lines.length]).toEqual([0, [], 1]);
		expect(summaryOf(lines)).toMatchObject({ differences: 0, flips: 0, sheets: expected.sheets.length, notRead: [] });
	});

	test('names every target that flipped, with code 1, and one that is only unsure, with code 0', () => {
		const [blank, ...rest] = expected.sheets;
		const readingsWith = (level: string) =>
			fileWith(
				`${level}.jsonl`,
				[lineOf(blank!, (right, i) => (i === 1 ? level : right)), ...rest.map((sheet) => lineOf(sheet))].join('\n')
			);
		const { contest, choice } = blank!.targets[1]!;
		const flipped = fairhand('deck', '--compare', expectedFile, readingsWith('dark'));
		expect(flipped.code).toBe(1);
		expect(flipped.errors).toEqual([expect.stringContaining('1 targets flipped between dark and empty')]);
		expect(JSON.parse(flipped.lines[0]!)).toMatchObject({
			sheet: blank!.name,
			contest,
			choice,
			drawn: 'none',
			level: 'dark',
			isFlip: true
		});
		const unsure = fairhand('deck', '--compare', expectedFile, readingsWith('unsure'));
		expect([unsure.code, unsure.errors, unsure.lines.length]).toEqual([0, [], 2]);
		expect(JSON.parse(unsure.lines[0]!)).toMatchObject({ level: 'unsure', isFlip: false });
	});

	test('ends with code 1 where a sheet was refused or not read at all', () => {
		const [first, second, ...rest] = expected.sheets;
		const refused = { file: `${first!.name}.jpg`, refused: { code: 'too-dark', message: 'Too dark.' } };
		const lines = [JSON.stringify(refused), ...rest.map((sheet) => lineOf(sheet))];
		const run = fairhand('deck', '--compare', expectedFile, fileWith('refused.jsonl', lines.join('\n')));
		expect(run.code).toBe(1);
		expect(summaryOf(run.lines)).toMatchObject({
			notRead: [second!.name],
			refused: [{ sheet: first!.name, code: 'too-dark' }]
		});
	});

	const other = fileWith('other.jsonl', '{"file":"a","election":"e","style":"s","contests":[]}');
	test.each([
		[[], 2, /expected --out DIR, got none/],
		[['--compare', expectedFile], 2, /two files, got 1/],
		[['stray', '--out', folder], 2, /expected no file without --compare/],
		[['--out', folder, '--format', 'png'], 2, /--format svg or pdf/],
		[['--out', folder, '--style', 'nowhere'], 1, /style: expected one of/],
		[['--compare', fileWith('none.json', {}), other], 1, /expected the expected.json of a deck/],
		[['--compare', expectedFile, '/nowhere.jsonl'], 1, /nowhere.jsonl: cannot be read/],
		[['--compare', expectedFile, fileWith('noise.jsonl', 'noise')], 1, /line 1: expected a line that "read" printed/],
		[['--compare', expectedFile, other], 1, /line 1: expected a reading of election "demo-county", style "cairnwold"/]
	])('%j ends with code %i and says why in one line', (args, code, message) => {
		const run = fairhand('deck', ...args);
		expect([run.code, run.errors]).toEqual([code, [expect.stringMatching(message)]]);
	});
});
