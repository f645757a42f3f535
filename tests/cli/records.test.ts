import { describe, expect, test } from 'vitest';
import { fairhand, fileWith } from './run';

// Other programs read these lines: no field may come, go or change its name by accident.

type Json = Readonly<Record<string, unknown>>;

const keys = (value: unknown): readonly string[] => Object.keys(value as Json).sort();
const each = (values: readonly unknown[]): readonly string[] => [...new Set(values.map((one) => keys(one).join()))];
const list = (value: unknown): readonly Json[] => value as readonly Json[];

const layout = JSON.parse(fairhand('layout').lines[0]!) as { pages: readonly { choices: readonly Json[] }[] };
const [first, second] = layout.pages[0]!.choices as unknown as readonly { target: readonly number[] }[];

/** A dark scribble all over a target. */
const filled = ({ target: [x = 0, y = 0, width = 0, height = 0] }: { target: readonly number[] }): Json => ({
	tool: 'felt',
	points: Array.from({ length: 15 }, (_, i) => [x + (width * i) / 14, i % 2 ? y + 0.2 * height : y + 0.8 * height])
});

describe('the fields of', () => {
	test('layout', () => {
		expect(keys(layout)).toEqual(['election', 'pages', 'style']);
		expect(each(layout.pages)).toEqual(['choices,contests,height,page,width']);
		const pages = list(layout.pages);
		expect(each(pages.flatMap(({ contests }) => list(contests)))).toEqual(['box,contest,voteFor']);
		expect(each(pages.flatMap(({ choices }) => list(choices))).toSorted()).toEqual([
			'choice,contest,name,row,target',
			'choice,contest,name,row,target,writeIn'
		]);
	});

	test('read: a sheet with a contest read, one with too many marks, and blank ones', () => {
		const file = fileWith('fields.json', { page: 1, strokes: [filled(first!), filled(second!)] });
		const record = JSON.parse(fairhand('read', file).lines[0]!) as Json;
		expect(keys(record)).toEqual(['ballot', 'contests', 'election', 'file', 'marks', 'pages', 'rulebook', 'style']);
		expect(list(record.marks).length).toBeGreaterThan(0);
		expect(each(list(record.marks))).toEqual(['box,choice,confidence,contest,id,kind,page,place']);
		const contests = list(record.contests);
		expect(each(contests)).toEqual(['advice,contest,machine,people,warned']);
		expect(each(contests.map(({ warned }) => warned))).toEqual(['mail,pollingPlace']);
		expect(each(contests.map(({ machine }) => machine))).toEqual(['state,targets,votes']);
		const targets = contests.flatMap(({ machine }) => list((machine as Json).targets));
		expect(each(targets)).toEqual(['choice,darkness,fill,level,score']);
		expect(each(contests.map(({ people }) => people))).toEqual(['clauses,looks,outcome,trace,votes,wouldLook']);
		expect(each(contests.flatMap(({ people }) => list((people as Json).clauses)))).toEqual(['cite,id']);
		expect(keys(record.ballot)).toEqual(['clauses', 'decides', 'outcome', 'trace']);
	});

	test('read: a mark at no choice', () => {
		const file = fileWith('margin.json', {
			page: 1,
			strokes: [
				{
					tool: 'felt',
					points: [
						[20, 300],
						[22, 330],
						[20, 360]
					]
				}
			]
		});
		const record = JSON.parse(fairhand('read', file).lines[0]!) as Json;
		expect(each(list(record.marks))).toEqual(['box,confidence,id,kind,page,place']);
	});

	test('read: a file that is refused', () => {
		const record = JSON.parse(fairhand('read', fileWith('none.json', '{')).lines[0]!) as Json;
		expect(keys(record)).toEqual(['file', 'refused']);
		expect(keys(record.refused)).toEqual(['code', 'message']);
	});
});
