import { describe, expect, test } from 'vitest';
import { readBallot } from '$core/read';
import { inkPage } from '$core/page/inkPage';
import { printPage } from '$core/page/printPage';
import type { Rulebook } from '$core/rules/rule';
import demoCounty from '$core/rules/sets/demo-county.json';
import { caseInk } from '$core/training/caseInk';
import { decisionKey, decisionOf } from '$core/training/decision';
import { factsOfCase, MOST_DEALT, readQueue } from '$core/training/reviewQueue';
import { groundsOf, SILENT, tableVerdict, UNSETTLED } from '$core/training/tableVerdict';
import { SETS } from '../rules/sets';
import { cases, election, sheets } from './table';

const demo = demoCounty as unknown as Rulebook;
const queue = readQueue(cases, election, sheets.en);
const judged = queue.map((one) => {
	const [verdict] = tableVerdict(demo, factsOfCase(one, election, sheets.en[one.contest]!)).contests;
	return { one, verdict: verdict!, decision: decisionOf(verdict!, one.found.marks.length > 0) };
});

describe('the queue of a review table', () => {
	test(`deals ${MOST_DEALT} cases, the least certain first, and none outside is less certain`, () => {
		expect(queue).toHaveLength(MOST_DEALT);
		const certainties = queue.map(({ certainty }) => certainty);
		expect([...certainties].sort((a, b) => a - b)).toEqual(certainties);
		expect(Math.min(...certainties)).toBe(0);
		expect(Math.max(...certainties)).toBeLessThanOrEqual(1);
		const dealt = new Set(queue.map(({ id }) => id));
		const left = readQueue(
			cases.filter(({ id }) => !dealt.has(id)),
			election,
			sheets.en
		);
		expect(left.every(({ certainty }) => certainty >= certainties.at(-1)!)).toBe(true);
	});

	test('is what the whole reader makes of the same strokes', () => {
		for (const { id, contest, marks, says, found } of queue.slice(0, 12)) {
			const layout = sheets.en[contest]!;
			const print = printPage(layout, 1);
			const anchors = layout.pages[0]!.choices.map(({ target }) => target);
			const image = inkPage(print, { page: 1, strokes: caseInk({ id, contest, marks, says }, layout) }, anchors);
			const { pages } = readBallot(new Map([[1, image]]), { election, layout, rulebook: demo, prints: [print] });
			expect([id, pages[0]]).toEqual([id, found]);
		}
	});

	test('holds every decision that there is, and no share of one that a guess would live on', () => {
		const outcomes = judged.map(({ decision }) => decision.outcome);
		expect([...new Set(outcomes)].sort()).toEqual(['blank', 'no-vote', 'refer', 'too-many', 'vote']);
		const most = Math.max(...['vote', 'refer'].map((name) => outcomes.filter((one) => one === name).length));
		expect(most).toBeLessThan(60);
	});

	test('is decided by ten clauses of the demo county or more', () => {
		const grounds = new Set(judged.flatMap(({ verdict }) => groundsOf(verdict)));
		grounds.delete(SILENT);
		grounds.delete(UNSETTLED);
		expect(grounds.size).toBeGreaterThanOrEqual(10);
	});

	test('comes to different decisions under different rulebooks', () => {
		const differing = queue.filter((one) => {
			const facts = factsOfCase(one, election, sheets.en[one.contest]!);
			const keys = SETS.map(([, book]) => {
				const [verdict] = tableVerdict(book, facts).contests;
				return decisionKey(decisionOf(verdict!, one.found.marks.length > 0));
			});
			return new Set(keys).size > 1;
		});
		expect(differing.length).toBeGreaterThan(40);
	});

	test('gives a person’s word for handwriting to the reader of the rule', () => {
		const [read] = readQueue(
			cases.filter(({ says }) => says.some((one) => one.says === 'printed-name')),
			election,
			sheets.en
		);
		const said = factsOfCase(read!, election, sheets.en[read!.contest]!).contests[0]!.choices.flatMap(({ marks }) =>
			marks.map(({ says, names }) => [says, names])
		);
		expect(said).toContainEqual(['printed-name', read!.says[0]!.names]);
	});
});

describe('at the table', () => {
	test('people look at what a machine would have let pass, and the rule’s own time to look is still told', () => {
		const struck = readQueue(
			cases.filter(({ id }) => id.startsWith('crossed-out-alone')),
			election,
			sheets.en
		).find(({ found }) => found.targets.some(({ level }) => level === 'dark'))!;
		const facts = factsOfCase(struck, election, sheets.en[struck.contest]!);
		const [verdict] = tableVerdict(demo, facts).contests;
		expect([verdict!.outcome, verdict!.by, verdict!.looks, verdict!.wouldLook]).toEqual([
			'no-vote',
			'people',
			'set-aside',
			false
		]);
	});

	test('nobody looks where the rule says that people never do', () => {
		const never = SETS.map(([, book]) => book).filter(({ looks }) => looks === 'never');
		expect(never.length).toBeGreaterThan(0);
		for (const book of never) {
			const [verdict] = tableVerdict(book, factsOfCase(queue[0]!, election, sheets.en[queue[0]!.contest]!)).contests;
			expect([book.id, verdict!.wouldLook]).toEqual([book.id, false]);
		}
	});

	test('a case that the rule alone does not settle is laid to no clause', () => {
		const open = judged.filter(({ decision }) => decision.outcome === 'refer');
		expect(open.length).toBeGreaterThan(0);
		for (const { verdict } of open) expect([SILENT, UNSETTLED]).toContain(groundsOf(verdict)[0]);
		for (const { verdict, decision } of judged.filter((each) => each.decision.outcome !== 'refer'))
			expect([
				decision.outcome,
				groundsOf(verdict).every((id) => demo.clauses.some((clause) => clause.id === id))
			]).toEqual([decision.outcome, true]);
	});
});
