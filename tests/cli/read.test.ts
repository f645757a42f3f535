import { closeSync, openSync, truncateSync, writeFileSync, writeSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { fairhand, fileWith } from './run';

interface ChoiceLine {
	contest: string;
	choice: string;
	row: number[];
	target: [number, number, number, number];
	name: [number, number, number, number];
}

interface LayoutDocument {
	election: string;
	style: string;
	pages: { page: number; width: number; height: number; contests: unknown[]; choices: ChoiceLine[] }[];
}

const layout = JSON.parse(fairhand('layout').lines[0] ?? '') as LayoutDocument;
const first = layout.pages[0]!.choices[0]!;

/** Strokes that fill a target line by line, as a careful voter would. */
function filling([x, y, width, height]: readonly [number, number, number, number]) {
	const points: [number, number][] = [];
	for (let row = 0; row <= 12; row += 1) {
		const at = y + (height * row) / 12;
		const inset = width * 0.12;
		points.push(
			row % 2 ? [x + width - inset, at] : [x + inset, at],
			row % 2 ? [x + inset, at] : [x + width - inset, at]
		);
	}
	return [{ tool: 'ballpoint', points }];
}

describe('read', () => {
	test('reads a filled target as a vote and lists every contest of the page', () => {
		const file = fileWith('filled.json', { page: 1, strokes: filling(first.target) });
		const { code, lines } = fairhand('read', file);
		expect(code).toBe(0);
		const record = JSON.parse(lines[0]!) as {
			file: string;
			election: string;
			style: string;
			pages: number[];
			rulebook: string;
			marks: { id: string; kind: string; place: string; box: number[] }[];
			contests: {
				contest: string;
				machine: { state: string; votes: string[]; targets: unknown[] };
				people: { outcome: string; votes: string[]; looks: string; clauses: unknown[]; trace: unknown[] };
				advice: unknown[];
			}[];
			ballot: { outcome: string; clauses: unknown[] };
		};
		expect(record).toMatchObject({ file, election: layout.election, style: layout.style, pages: [1] });
		expect(record.marks).toEqual([expect.objectContaining({ id: 'm1', kind: 'fill', place: 'in-target' })]);
		expect(record.contests).toHaveLength(layout.pages[0]!.contests.length);
		expect(record.contests[0]!.machine.votes).toEqual([first.choice]);
		expect(record.contests[0]!.people).toMatchObject({ outcome: 'vote', votes: [first.choice] });
		expect(record.contests.flatMap((contest) => contest.machine.targets)).toHaveLength(layout.pages[0]!.choices.length);
		expect(record.contests[1]!.machine.state).toBe('blank');
	});

	test('keeps the order of files, gives a bad one a line of its own and goes on', () => {
		const good = fileWith('good.json', { page: 1, strokes: [] });
		const bad = fileWith('bad.json', '{"page":');
		const { code, lines, errors } = fairhand('read', bad, good, bad);
		expect(code).toBe(1);
		expect(lines.map((line) => (JSON.parse(line) as { file: string }).file)).toEqual([bad, good, bad]);
		expect(JSON.parse(lines[0]!)).toMatchObject({ refused: { code: 'not-json' } });
		expect(errors).toHaveLength(2);
	});

	const point = [100, 100];
	test.each([
		['a page that is no page', { page: 0, strokes: [] }],
		['a page that the style has not', { page: 99, strokes: [] }],
		['a coordinate that is no number', { page: 1, strokes: [{ tool: 'ballpoint', points: [point, [null, 1]] }] }],
		['a coordinate far off any page', { page: 1, strokes: [{ tool: 'ballpoint', points: [point, [1e9, 1]] }] }],
		['a tool that nobody has', { page: 1, strokes: [{ tool: 'crayon', points: [point] }] }],
		['ink of another election', { election: 'another', page: 1, strokes: [] }],
		['a style that is not there', { style: 'no-such', page: 1, strokes: [] }],
		['a list', []],
		['nothing', null]
	])('refuses %s in one clear line', (name, ink) => {
		const { code, lines, errors } = fairhand('read', fileWith(`${name.replaceAll(' ', '-')}.json`, ink));
		expect(code).toBe(1);
		expect(lines).toHaveLength(1);
		expect(errors).toHaveLength(1);
		const { refused } = JSON.parse(lines[0]!) as { refused: { code: string; message: string } };
		expect(refused.code).toMatch(/^[a-z-]+$/);
		expect(refused.message).toMatch(/expected .+, got .+/);
	});

	test('refuses NaN, which JSON does not have', () => {
		const file = fileWith('nan.json', '{"page":1,"strokes":[{"tool":"ballpoint","points":[[NaN,1]]}]}');
		expect(JSON.parse(fairhand('read', file).lines[0]!)).toMatchObject({ refused: { code: 'not-json' } });
	});

	test('refuses 100 MB of points without reading them', () => {
		const file = fileWith('huge.json', '{"page":1,"strokes":[{"tool":"ballpoint","points":[');
		const million = `${'[100.25,100],'.repeat(999_999)}[100.25,100]`;
		const handle = openSync(file, 'a');
		for (let written = 0; written < 100 * 1024 * 1024; written += million.length)
			writeSync(handle, written > 0 ? `,${million}` : million);
		writeSync(handle, ']}]}');
		closeSync(handle);
		const { code, lines, errors } = fairhand('read', file);
		expect(code).toBe(1);
		expect(errors).toHaveLength(1);
		expect(JSON.parse(lines[0]!)).toMatchObject({ refused: { code: 'too-large' } });
	});

	test.each([
		['ink.json', '{"page":1,"strokes":[', /of ink, got \d+; split it by page$/],
		['photo.jpg', '\xff\xd8\xff\xe0', /^expected at most \d+ bytes, got \d+; take a smaller photo$/],
		['photo.png', '\x89PNG\r\n', /^expected at most \d+ bytes, got \d+; take a smaller photo$/]
	])('says of a 115 MB %s what makes it smaller', (name, start, advice) => {
		const file = fileWith(`large-${name}`, '');
		writeFileSync(file, start, 'latin1');
		truncateSync(file, 115e6);
		const { code, lines, errors } = fairhand('read', file);
		expect(code).toBe(1);
		expect(errors).toHaveLength(1);
		expect(lines).toHaveLength(1);
		const { refused } = JSON.parse(lines[0]!) as { refused: { code: string; message: string } };
		expect(refused.code).toBe('too-large');
		expect(refused.message).toMatch(advice);
	});

	test('refuses more points than any ballot has, within the size that is read', () => {
		const points = Array.from({ length: 2_500_000 }, () => [1, 1]);
		const file = fileWith('many.json', { page: 1, strokes: [{ tool: 'ballpoint', points }] });
		const { code, lines } = fairhand('read', file);
		expect(code).toBe(1);
		expect(JSON.parse(lines[0]!)).toMatchObject({ refused: { code: expect.any(String) as string } });
	});

	test('says what is wrong with a call: exit code 2', () => {
		expect(fairhand('read').code).toBe(2);
		expect(fairhand('read', '--colour', 'x').code).toBe(2);
		expect(fairhand('sing').code).toBe(2);
		expect(fairhand().code).toBe(2);
	});

	test('names the rulebooks there are when it is asked for another', () => {
		const { code, errors } = fairhand('read', fileWith('r.json', { page: 1, strokes: [] }), '--rulebook', 'no-such');
		expect(code).toBe(1);
		expect(errors.join(' ')).toContain('demo-county');
	});
});
