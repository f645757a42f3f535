import { describe, expect, test } from 'vitest';
import { county } from '$core/election/demo';
import { broken } from '../core/election/corpus';
import { fairhand, fileWith } from './run';

describe('layout', () => {
	test.each(county.styles.map(({ id }) => id))('lists every contest and choice of style %s once', (style) => {
		const { code, lines } = fairhand('layout', '--style', style);
		expect(code).toBe(0);
		const { pages } = JSON.parse(lines[0]!) as {
			pages: { contests: { contest: string }[]; choices: { choice: string }[] }[];
		};
		const wanted = county.styles.find(({ id }) => id === style)!.contests;
		expect(pages.flatMap(({ contests }) => contests.map(({ contest }) => contest)).sort()).toEqual([...wanted].sort());
		expect(pages.flatMap(({ choices }) => choices)).toHaveLength(
			county.contests.filter(({ id }) => wanted.includes(id)).flatMap(({ choices }) => choices).length
		);
	});

	test('gives large print with --large: the same targets, in the same size, on more pages', () => {
		interface Document {
			readonly pages: { choices: { choice: string; target: [number, number, number, number] }[] }[];
		}
		const [ordinary, large] = [[], ['--large']].map(
			(args) => JSON.parse(fairhand('layout', ...args).lines[0]!) as Document
		);
		const targets = ({ pages }: Document) =>
			pages.flatMap(({ choices }) => choices.map(({ choice, target: [, , width, height] }) => [choice, width, height]));
		expect(targets(large!)).toEqual(targets(ordinary!));
		expect(large!.pages.length).toBeGreaterThan(ordinary!.pages.length);
	});

	test('says the same thing twice', () => {
		expect(fairhand('layout').lines).toEqual(fairhand('layout').lines);
	});

	test('lists every problem of an election file that cannot be used', () => {
		const { code, errors } = fairhand('layout', '--election', fileWith('empty-election.json', {}));
		expect(code).toBe(1);
		expect(errors.length).toBeGreaterThan(5);
	});

	test('names the styles there are when it is asked for another', () => {
		const { code, errors } = fairhand('layout', '--style', 'no-such');
		expect(code).toBe(1);
		expect(errors[0]).toContain(county.styles[0]!.id);
	});
});

describe('check', () => {
	test('finds nothing that is an error in the demo county, and says so with exit code 0', () => {
		expect(fairhand('check', 'src/core/election/files/county.json').code).toBe(0);
	});

	test('gives ten faults ten lines, each at its path', () => {
		const faults: Readonly<Record<string, unknown>> = {
			id: '',
			date: '2027-02-30',
			'office.phone': 12,
			'target.shape': 'star',
			'thresholds.dark': 7,
			'contests[0].voteFor': 0,
			'contests[1].title': 'plain',
			'styles[0].contests[0]': 'no-such-contest',
			'page.columns': 5,
			'dates[0].offsetDays': 1.5
		};
		const { code, lines } = fairhand('check', fileWith('ten-faults.json', broken(faults)));
		expect(code).toBe(1);
		const problems = lines.map((line) => JSON.parse(line) as Record<string, string>);
		expect(problems.map(({ path }) => path).sort()).toEqual(Object.keys(faults).sort());
		for (const problem of problems) {
			expect(Object.keys(problem)).toEqual(['path', 'expected', 'received', 'severity', 'message']);
			expect(problem.message).toContain(problem.path);
		}
	});

	test('rulebooks lists the demo county’s, labelled as invented', () => {
		const [line] = fairhand('rulebooks').lines;
		expect(JSON.parse(line!)).toContainEqual(expect.objectContaining({ id: 'demo-county', invented: true }));
	});
});
