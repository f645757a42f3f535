import { describe, expect, it } from 'vitest';
import type { PlaceableMark } from '$core/ink/placeMark';
import { printPage } from '$core/page/printPage';
import { compareRulebooks, type RulebookVerdict } from '$core/rules/compareRulebooks';
import { decidingParts } from '$lib/rulebooks/decidingParts';
import { factsOf } from '$lib/rulebooks/factsOf';
import { PICTURES, toldOf } from '$lib/rulebooks/pictures';
import { pictureElection, pictureSheets } from '$lib/rulebooks/pictureSheets.server';
import { readPicture } from '$lib/rulebooks/readPicture';
import { SETS } from '../../core/rules/sets';
import en from '$locales/en.json';

const books = SETS.map(([, book]) => book);
const { layouts, found } = pictureSheets('en', en.layout);
const print = printPage(layouts.one, 1);

/** What all rulebooks make of marks on the sheet of one contest, drawn and read in this run. */
function verdictsOf(...marks: readonly (readonly [choice: string, mark: PlaceableMark])[]): readonly RulebookVerdict[] {
	const read = readPicture({ id: 'test', sheet: 'one', marks }, pictureElection, layouts.one, print);
	return compareRulebooks(books, factsOf(pictureElection, layouts.one, read, {}).facts);
}

const partsOf = (verdicts: readonly RulebookVerdict[], rulebook: string) => {
	const { decide, open } = decidingParts(verdicts.find((one) => one.rulebook.id === rulebook)!);
	return {
		decide: decide.map(({ id }) => id),
		open: open.map(({ to, choices, clauses }) => [to, choices, clauses.map(({ id }) => id)])
	};
};

const light = verdictsOf(['A', 'light']);
const partlyFilled = verdictsOf(['A', 'fill'], ['B', 'partial']);
const ready = PICTURES.flatMap((picture) => {
	const marks = found[picture.id]!;
	const { facts } = factsOf(pictureElection, layouts[picture.sheet], marks, toldOf(picture, marks.marks));
	return compareRulebooks(books, facts);
});

describe('the parts of a verdict', () => {
	it('a mark too light to be sure of has none that decides, and those that may by what would come of it', () => {
		expect(partsOf(light, 'us-ca')).toEqual({
			decide: [],
			open: [
				['vote', ['A'], ['CA-o2', 'CA-o3', 'CA-o5']],
				['no-vote', ['A'], ['CA-c', 'CA-c2']],
				['refer', [], ['CA-cr']]
			]
		});
	});

	it('what decides for one choice stays what decides, while another choice hangs on its mark', () => {
		expect(partsOf(partlyFilled, 'us-mt')).toEqual({
			decide: ['MT-2am'],
			open: [
				['vote', ['B'], ['MT-2b', 'MT-2c1']],
				['no-vote', ['B'], ['MT-2ae', 'MT-2d']],
				['refer', [], ['MT-2c2']]
			]
		});
	});

	it('no deciding clause is lost or told twice, under any rulebook and for any of the pictures', () => {
		for (const verdict of [...light, ...partlyFilled, ...ready]) {
			const { decide, open } = decidingParts(verdict);
			const told = [...decide, ...open.flatMap(({ clauses }) => clauses)].map(({ id }) => id);
			const meant = new Set([...verdict.contests.flatMap(({ clauses }) => clauses), ...verdict.ballotClauses]);
			expect([verdict.rulebook.id, told.sort()]).toEqual([verdict.rulebook.id, [...meant].map(({ id }) => id).sort()]);
		}
	});

	it('where the rule settles every contest, nothing hangs on anything', () => {
		const settled = [...light, ...partlyFilled, ...ready].filter(({ contests }) =>
			contests.every(({ outcome }) => outcome !== 'refer')
		);
		expect(settled.length).toBeGreaterThan(100);
		for (const verdict of settled) expect(decidingParts(verdict).open).toEqual([]);
	});
});
