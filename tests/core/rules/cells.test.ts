import { describe, expect, test } from 'vitest';
import type { BallotStatement, PeopleStatement } from '$core/reading/statement';
import { evaluate } from '$core/rules/evaluate';
import type { Rulebook } from '$core/rules/rule';
import { isTested, nameOf, type CellFile, type Expectation, type TestedCell } from './cells/cell';
import { checkCells } from './cells/checkCells';
import { CELL_FILES, keepTally, keptTally, SURVEYED, tallyOf } from './cells/files';
import { factsOf, readPicture } from './pictures/readPicture';
import { rolesOf } from './pictures/sheets';
import { SETS } from './sets';

/*
 * One test for each situation and rulebook of which a published rule says something: drawn in ink, scanned at
 * 200 dpi, read, and decided under the rulebook. What is expected was taken from the rule, which is named in the test.
 */

const BOOKS = new Map(SETS);

const isSound = ([name, document]: readonly [string, unknown]): boolean =>
	checkCells(document, name, BOOKS.get(name)).length === 0;

const SOUND = CELL_FILES.filter(isSound).map(([, document]) => document as CellFile);

describe.each(CELL_FILES)('the cells of %s', (name, document) => {
	test(`${name}: the file has no faults`, () => {
		expect(checkCells(document, name, BOOKS.get(name)).map(({ message }) => message)).toEqual([]);
	});

	test(`${name}: every situation with a published verdict is tested, or skipped with a reason`, () => {
		const there = new Set((document as CellFile).cells.map(({ row }) => row));
		expect((SURVEYED.get(name) ?? []).filter((row) => !there.has(row))).toEqual([]);
	});
});

/** What came of a cell, in the words of its expectation and no more of it. */
function outcomeOf(cell: TestedCell, rulebook: Rulebook): { came: Expectation; cited: readonly string[] } {
	const { picture, everywhere = false, told, vary, expect: expected } = cell;
	const read = readPicture(picture, { everywhere, ...vary });
	const { contests, ballot } = evaluate(rulebook, factsOf(read, told));
	const people = contests.get(read.contest.id);
	if (!people) throw new Error(`expected a statement on contest "${read.contest.id}", got none`);
	const roleOf = new Map([...rolesOf(read.contest)].map(([role, id]) => [id, role]));
	const votes = people.votes.map((id) => roleOf.get(id) ?? id);
	const cited = [...people.clauses, ...ballot.clauses].map(({ id }) => id);
	const came: Record<keyof Expectation, unknown> = {
		outcome: people.outcome,
		votes: read.contest.kind === 'ranked' ? votes : votes.sort(),
		clauses: expected.clauses?.filter((id) => cited.includes(id)),
		ballot: ballot.outcome,
		wouldLook: people.wouldLook,
		decides: decidedBy(people, ballot)
	};
	const asked = Object.entries(came).filter(([name]) => Object.hasOwn(expected, name));
	return { came: Object.fromEntries(asked), cited };
}

/** Who settles the contest; where the contest is not referred, who settles the sheet. */
const decidedBy = (people: PeopleStatement, ballot: BallotStatement) => people.decides ?? ballot.decides;

const sorted = (cell: TestedCell): Expectation => {
	const { votes, ...rest } = cell.expect;
	if (votes === undefined) return rest;
	return { ...rest, votes: cell.picture.startsWith('ranked') ? votes : [...votes].sort() };
};

describe.each(SOUND.map((file) => [file.rulebook, file] as const))('%s', (name, { cells }) => {
	const rulebook = BOOKS.get(name)!;

	test.each(cells.filter(isTested).map((cell) => [nameOf(name, cell), cell] as const))('%s', (_, cell) => {
		const { came, cited } = outcomeOf(cell, rulebook);
		expect(came, `cited: ${cited.join(' ') || 'nothing'}`).toEqual(sorted(cell));
	});
});

describe('the tally of cells', () => {
	const tally = tallyOf(SOUND);

	test('is the one kept in tests/core/rules/cells/tally.json', () => {
		if (process.env['UPDATE_TALLY']) keepTally(tally);
		const { surveyed, surveyedTested, surveyedSkipped, tested, skipped, rulebooks } = tally.totals;
		process.stdout.write(
			`cells: ${rulebooks} rulebooks, ${tested} tested, ${skipped} skipped; of ${surveyed} published verdicts ` +
				`${surveyedTested} tested, ${surveyedSkipped} only skipped\n`
		);
		expect(
			keptTally(),
			'Where the change is meant: UPDATE_TALLY=1 npx vitest run tests/core/rules/cells.test.ts'
		).toEqual(JSON.parse(JSON.stringify(tally)));
	});

	test('names no rulebook whose cells are missing', () => {
		expect(tally.missing).toEqual([]);
	});
});
