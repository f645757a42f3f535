import { describe, expect, test } from 'vitest';
import { county } from '$core/election/demo';
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

	test('gives a line for each of ten faults', () => {
		const broken = structuredClone(county) as unknown as Record<string, never>;
		const set = (path: string, value: unknown): void => {
			const keys = path.split('.');
			const last = keys.pop()!;
			const holder = keys.reduce<Record<string, unknown>>((at, key) => at[key] as Record<string, unknown>, broken);
			holder[last] = value;
		};
		const faults: readonly [string, unknown][] = [
			['id', ''],
			['date', '2027-02-30'],
			['languages', []],
			['target.shape', 'star'],
			['thresholds.dark', 7],
			['contests.0.voteFor', 0],
			['contests.1.title', 'plain'],
			['styles.0.contests.0', 'no-such-contest'],
			['page.columns', 5],
			['dates.0.offsetDays', 1.5]
		];
		for (const [path, value] of faults) if (path !== 'languages') set(path, value);
		set('office.phone', 12);
		const { code, lines } = fairhand('check', fileWith('ten-faults.json', broken));
		expect(code).toBe(1);
		const paths = lines.map((line) => (JSON.parse(line) as { path: string }).path);
		for (const path of [
			'id',
			'date',
			'target.shape',
			'thresholds.dark',
			'contests[0].voteFor',
			'page.columns',
			'office.phone'
		])
			expect(paths).toContain(path);
		expect(lines.length).toBeGreaterThanOrEqual(10);
	});

	test('rulebooks lists the demo county’s, labelled as invented', () => {
		const [line] = fairhand('rulebooks').lines;
		expect(JSON.parse(line!)).toContainEqual(expect.objectContaining({ id: 'demo-county', invented: true }));
	});
});
