import { readFileSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test, vi } from 'vitest';
import { WorkerPool } from '../../src/cli/batch/workerPool';
import { county } from '$core/election/demo';
import { placeMark, type PlaceableMark } from '$core/ink/placeMark';
import { layout, markedSheet } from '../support/photoCase';
import { fairhand, fileWith } from './run';
import { pictureFile } from './pictureFile';

// Each run is a process of its own, and its workers are more: slow where other work shares the processor.
vi.setConfig({ testTimeout: 240_000 });

const page1 = layout.pages[0]!;
const inkOf = (...marks: (readonly [place: number, mark: PlaceableMark])[]) => ({
	page: 1,
	strokes: marks.flatMap(([place, mark]) =>
		placeMark(mark, page1.choices[place]!, { tool: 'ballpoint', shape: layout.shape, side: layout.side })
	)
});

/** Sheets of a stack: twelve with one contest marked twice, three with a light mark, one bad file, and a scan first. */
const party = page1.choices.filter(({ contest }) => contest === page1.choices[0]!.contest).length;
const overvoted = inkOf(...Array.from({ length: party }, (_, i) => [i, 'fill'] as const));
const stack = [
	pictureFile('first.png', markedSheet(3).flat),
	...Array.from({ length: 12 }, (_, i) => fileWith(`twice${i}.json`, overvoted)),
	fileWith('bad.json', '{'),
	...Array.from({ length: 7 }, (_, i) => fileWith(`light${i}.json`, inkOf([0, 'light'])))
];

/** A line of `--format cvr`. */
interface Named {
	readonly CVR?: readonly { readonly UniqueId: string }[];
	readonly refused?: { readonly code: string };
}

interface Line {
	readonly file?: string;
	readonly codes?: readonly { code: string; count: number }[];
	readonly refused?: { readonly code: string };
	readonly summary?: {
		readonly sheets: number;
		readonly refused: number;
		readonly codes: readonly { code: string; sheets: number | 'suppressed' }[];
	};
}
const parsed = (lines: readonly string[]) => lines.map((line) => JSON.parse(line) as Line);

const out = fileWith('codes.jsonl', '');
const outLines = () =>
	readFileSync(out, 'utf8')
		.split('\n')
		.filter((line) => line !== '');

describe('a batch', () => {
	const byWorkers = fairhand('read', ...stack, '--workers', '2');
	const codes = fairhand(
		'read',
		...stack,
		'--workers',
		'1',
		'--format',
		'codes',
		'--out',
		join(out, '..', 'new.jsonl')
	);

	test('is read by worker threads in the order given, as one thread reads it', () => {
		expect(byWorkers.code).toBe(1);
		expect(parsed(byWorkers.lines).map(({ file }) => file)).toEqual(stack);
		const byOne = fairhand('read', ...stack, '--workers', '0');
		expect(byWorkers.lines).toEqual(byOne.lines);
	});

	test('gives a bad file one line, goes on, and says on standard error how far it is', () => {
		const bad = parsed(byWorkers.lines).filter(({ refused }) => refused !== undefined);
		expect(bad).toEqual([
			expect.objectContaining({ file: stack[13], refused: expect.objectContaining({ code: 'not-json' }) as unknown })
		]);
		expect(byWorkers.errors.filter((line) => line.includes('bad.json'))).toHaveLength(1);
		expect(byWorkers.errors.at(-1)).toMatch(/^fairhand: 21 of 21 files, 1 refused, [\d.]+ a second$/);
	});

	test('says mistake codes and sums them up at the end, small numbers held back', () => {
		expect(codes.code).toBe(1);
		expect(codes.lines).toEqual([]);
		const lines = parsed(
			readFileSync(join(out, '..', 'new.jsonl'), 'utf8')
				.trim()
				.split('\n')
		);
		expect(lines).toHaveLength(stack.length + 1);
		expect(lines[1]?.codes).toEqual([{ code: 'too-many', count: 1 }]);
		expect(lines[15]?.codes).toEqual([{ code: 'faint-mark', count: 1 }]);
		const { summary } = lines.at(-1)!;
		expect(summary).toMatchObject({ sheets: 20, refused: 1, suppressedUnder: 10 });
		const told = new Map(summary!.codes.map(({ code, sheets }) => [code, sheets]));
		expect(told.get('faint-mark')).toBe('suppressed');
		// The scan's own mistakes are few: they are held back too, or the larger number with them.
		expect([12, 13, 'suppressed']).toContain(told.get('too-many'));
	});

	test('says nothing of contests, choices or votes with its codes', () => {
		const text = readFileSync(join(out, '..', 'new.jsonl'), 'utf8');
		const ids = county.contests.flatMap(({ id, choices }) => [id, ...choices.map((choice) => choice.id)]);
		const words = new Set(text.replace(/"file":"[^"]*"/g, '').match(/[a-z0-9-]+/gi));
		expect(ids.filter((id) => words.has(id))).toEqual([]);
		expect(text).not.toMatch(/votes|machine|people|targets/);
		expect(text).toContain('too-many');
	});

	test('that was broken off goes on where it was, and ends as if it had not been', () => {
		const whole = readFileSync(join(out, '..', 'new.jsonl'));
		writeFileSync(out, whole);
		// In the middle of the fifth line.
		const fourLines = whole.toString().split('\n').slice(0, 4).join('\n').length + 1;
		truncateSync(out, fourLines + 20);
		const { code, errors } = fairhand(
			'read',
			...stack,
			'--format',
			'codes',
			'--out',
			out,
			'--resume',
			'--workers',
			'0'
		);
		expect(code).toBe(1);
		expect(errors).toContain(`fairhand: 4 of 21 files read before, 17 to go`);
		expect(readFileSync(out, 'utf8')).toBe(whole.toString());
	});

	test('that was done is not read again, and a file more is added before the sum', () => {
		writeFileSync(out, readFileSync(join(out, '..', 'new.jsonl')));
		const more = fileWith('more.json', inkOf());
		fairhand('read', ...stack, more, '--format', 'codes', '--out', out, '--resume');
		const lines = parsed(outLines());
		expect(lines.map(({ file }) => file)).toEqual([...stack, more, undefined]);
		expect(lines.at(-1)?.summary?.sheets).toBe(21);
	});

	test('goes on with reports of cast vote records too, which name their file in the record', () => {
		const some = [stack[1]!, stack.find((file) => file.endsWith('bad.json'))!, stack.at(-1)!];
		const records = join(out, '..', 'records.jsonl');
		fairhand('read', ...some.slice(0, 2), '--format', 'cvr', '--out', records);
		const { code, errors } = fairhand('read', ...some, '--format', 'cvr', '--out', records, '--resume');
		expect([code, errors]).toEqual([1, ['fairhand: 2 of 3 files read before, 1 to go']]);
		const lines = readFileSync(records, 'utf8')
			.trim()
			.split('\n')
			.map((line) => JSON.parse(line) as Named);
		expect(lines.map(({ CVR, refused }) => CVR?.map(({ UniqueId }) => UniqueId) ?? refused?.code)).toEqual([
			[some[0]],
			'not-json',
			[some[2]]
		]);
		expect(lines[0]).not.toHaveProperty('file');
	});

	test('does not write over what is there, and does not go on with what it did not write', () => {
		writeFileSync(out, '{"file":"a","contests":[]}\n');
		const again = fairhand('read', stack[1]!, '--out', out);
		expect([again.code, again.errors]).toEqual([1, [expect.stringMatching(/expected a new file.*--resume/)]]);
		const other = fairhand('read', stack[1]!, '--format', 'codes', '--out', out, '--resume');
		expect([other.code, other.errors]).toEqual([
			1,
			[expect.stringMatching(/line 1: expected a line of "read --format codes"/)]
		]);
		expect(readFileSync(out, 'utf8')).toBe('{"file":"a","contests":[]}\n');
	});

	test.each([
		[['--resume'], /--out FILE with --resume/],
		[['--workers', 'many'], /--workers from 0 to \d+, got "many"/],
		[['--workers', '99'], /--workers from 0/],
		[['--format', 'votes'], /--format record or codes or cvr, got "votes"/]
	])('called with %j is bad usage, said in one line', (args, message) => {
		const { code, errors } = fairhand('read', stack[1]!, ...args);
		expect([code, errors]).toEqual([2, [expect.stringMatching(message)]]);
	});
});

describe('a worker that ends', () => {
	test('leaves a line for its file, and another takes the next', async () => {
		const settings = { election: '/nowhere.json', style: undefined, languages: undefined, rulebook: undefined };
		const pool = new WorkerPool(1, { ...settings, printSize: 'ordinary', format: 'record' });
		try {
			const lines = await Promise.all([pool.read('a.json'), pool.read('b.json')]);
			expect(lines.map(({ file, refused }) => [file, refused])).toEqual([
				['a.json', expect.stringContaining('/nowhere.json')],
				['b.json', expect.stringContaining('/nowhere.json')]
			]);
			expect(parsed(lines.map(({ line }) => line)).map(({ refused }) => refused?.code)).toEqual(['failed', 'failed']);
		} finally {
			await pool.close();
		}
	});
});
