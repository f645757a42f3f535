import { describe, expect, test } from 'vitest';
import type { Box } from '$core/geometry';
import type { Mark } from '$core/marks/mark';
import { takesInBoth } from '$core/rules/betweenTargets';
import { rowsOf, sheetOf } from './pictures/sheets';

const { layout, contests } = sheetOf('plain', 'oval');
const contest = contests.find(({ id }) => id === 'sheriff')!;
const rows = rowsOf(contest, layout);
const [a, b] = [rows.get('A')!, rows.get('B')!];
const bottomOfA = a.target.y + a.target.height;
const halfWay = (bottomOfA + b.target.y) / 2;

const markAt = (box: Partial<Box>, rest: Partial<Mark> = {}): Mark => ({
	id: 'm1',
	page: layout.pages.find(({ choices }) => choices.includes(a))!.page,
	kind: 'cross',
	place: 'beside-target',
	contest: contest.id,
	choice: b.choice,
	box: { x: a.target.x + 5, y: halfWay - 3, width: 6, height: 6, ...box },
	confidence: 1,
	darkness: 0.9,
	...rest
});

describe('a mark beside a target takes in a second choice', () => {
	test('where it lies on the line half-way between two targets and touches neither', () => {
		expect(takesInBoth(markAt({}), layout).alsoTouches).toEqual([a.choice]);
		expect(takesInBoth(markAt({}, { choice: a.choice }), layout).alsoTouches).toEqual([b.choice]);
	});

	test('but not where it is nearer to its own and clear of that line', () => {
		expect(takesInBoth(markAt({ y: halfWay + 0.1, height: 4 }), layout).alsoTouches).toBeUndefined();
	});

	test('nor where it stands level with a target and only its tail passes the line', () => {
		const tall = markAt({ y: halfWay - 2, height: b.target.y - halfWay + 6 });
		expect(takesInBoth(tall, layout).alsoTouches).toBeUndefined();
	});

	test('nor where it stands out of their column', () => {
		expect(takesInBoth(markAt({ x: a.target.x + a.target.width + 1 }), layout).alsoTouches).toBeUndefined();
	});

	test('nor where it is in a target, or is no mark of a choice', () => {
		const inTarget = markAt({}, { place: 'in-target' });
		expect(takesInBoth(inTarget, layout)).toBe(inTarget);
		expect(takesInBoth(markAt({}, { contest: 'another' }), layout).alsoTouches).toBeUndefined();
	});
});
