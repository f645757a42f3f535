import { describe, expect, test, vi } from 'vitest';
import { encodeCode } from '../../../src/codes/encodeCode';
import { wordsOf } from '../../../src/cli/files';
import { compareDeck, type SheetReading } from '$core/deck/compareDeck';
import { DECK_MARKS, dealtMarks, type DeckMarkId } from '$core/deck/deckMarks';
import { drawDeckSheet } from '$core/deck/drawDeckSheet';
import { planDeck, type DeckSheet } from '$core/deck/planDeck';
import { county, fair } from '$core/election/demo';
import type { Election } from '$core/election/election';
import type { Stroke } from '$core/ink/stroke';
import { layOut } from '$core/layout/layOutBallot';
import type { Layout } from '$core/layout/layout';
import { findMarks } from '$core/marks/findMarks';
import { inkPage } from '$core/page/inkPage';
import { printSheet } from '$core/sheet/printSheet';
import { withTargets } from '../layout/sheets';

// A deck is drawn and read page by page: slow where other work shares the processor.
vi.setConfig({ testTimeout: 240_000 });

const words = wordsOf(['en', 'es']);
const ranked: Election = {
	...county,
	contests: county.contests.map((contest, i) =>
		i % 3 === 0 && contest.choices.length < 6 ? { ...contest, kind: 'ranked' as const, ranks: 3 } : contest
	)
};

interface Case {
	readonly name: string;
	readonly election: Election;
	readonly layout: Layout;
}
const caseOf = (name: string, election: Election, ...args: [string, string[], ('ordinary' | 'large')?]): Case => {
	const [style, languages, printSize] = args;
	return { name, election, layout: layOut(election, style, words, languages, printSize) };
};
const cases: readonly Case[] = [
	caseOf('an oval on the left', county, 'ferrystead', ['en']),
	caseOf('large print', county, 'cairnwold', ['es'], 'large'),
	caseOf('a box on the right, in two languages', withTargets(county, 'box', 'right', 2), 'reedmarsh', ['en', 'es']),
	caseOf('a broken arrow', withTargets(fair, 'arrow', 'right', 2), 'fair', ['en']),
	caseOf('ranked contests', ranked, 'ferrystead', ['en'])
];

const keyOf = (target: { contest: string; choice: string; rank?: number }) =>
	`${target.contest}/${target.choice}/${target.rank ?? ''}`;

/** What the reader makes of a deck's sheets, drawn and scanned flat. `redraw` may tamper with what was planned. */
function readDeck(
	{ layout, election }: Case,
	sheets: readonly DeckSheet[],
	redraw: (sheet: DeckSheet) => readonly Stroke[] = ({ strokes }) => strokes
): SheetReading[] {
	const prints = layout.pages.map(({ page }) => printSheet(layout, page, encodeCode));
	return sheets.map((sheet) => {
		const { page, name } = sheet;
		const print = prints[page - 1]!;
		const anchors = layout.pages[page - 1]!.choices.map(({ target }) => target);
		const image = inkPage(print, { page, strokes: redraw(sheet) }, anchors);
		const { targets } = findMarks(image, print, layout, page, { thresholds: election.thresholds });
		return { file: `scans/${name}.png`, pages: [page], targets };
	});
}

describe.each(cases)('a deck for $name', (one) => {
	const { layout, election } = one;
	const sheets = planDeck(layout, election);
	const all = sheets.flatMap(({ targets }) => targets);

	test('fills every target at least once and leaves every one empty at least once', () => {
		const every = layout.pages.flatMap(({ choices }) => choices.map(keyOf)).sort();
		for (const drawn of ['fill', 'none'] as const)
			expect([...new Set(all.filter((known) => known.drawn === drawn).map(keyOf))].sort()).toEqual(every);
	});

	test('has every kind of mark twice and more, a blank card, and a contest with too many marks', () => {
		const times = (id: DeckMarkId) => all.filter(({ drawn }) => drawn === id).length;
		const writes = layout.pages.some(({ choices }) => choices.some(({ writeIn }) => writeIn));
		const wanted: DeckMarkId[] = [
			...dealtMarks(layout.shape),
			'crossed-out',
			...(writes ? (['written', 'written-filled'] as const) : [])
		];
		expect(wanted.filter((id) => times(id) < 2)).toEqual([]);
		expect(sheets.filter(({ strokes }) => strokes.length === 0).map(({ page }) => page)).toEqual(
			layout.pages.map(({ page }) => page)
		);
		const { contest, voteFor } = layout.pages[0]!.contests[0]!;
		const most = Math.max(
			...sheets.map(({ targets }) => targets.filter((t) => t.contest === contest && t.drawn === 'fill').length)
		);
		expect(most).toBe(voteFor + 1);
	});

	test('is the same again, with a name of its own for every sheet', () => {
		expect(planDeck(structuredClone(layout), structuredClone(election))).toEqual(sheets);
		expect(new Set(sheets.map(({ name }) => name)).size).toBe(sheets.length);
	});

	test('is read as it was drawn', () => {
		const report = compareDeck({ sheets }, readDeck(one, sheets));
		expect(report.differences).toEqual([]);
		expect(report).toMatchObject({ notRead: [], notOfDeck: [], refused: [], targets: all.length, matchedBy: 'name' });
	});
});

describe('a deck that was tampered with', () => {
	const one = cases[0]!;
	const sheets = planDeck(one.layout, one.election).slice(0, 4);
	const filled = sheets.find(({ strokes }) => strokes.length > 0)!;
	const wasFilled = filled.targets.find(({ drawn }) => drawn === 'fill')!;

	test('shows the mark that was taken off, as a flip, by its target', () => {
		const without = { ...wasFilled, drawn: 'none' as const, accept: DECK_MARKS.none.accept };
		const strokes = readDeck(one, sheets, (sheet) => {
			if (sheet !== filled) return sheet.strokes;
			const target = one.layout.pages[sheet.page - 1]!.choices.find(
				(choice) => keyOf(choice) === keyOf(without)
			)!.target;
			return sheet.strokes.filter(({ points }) =>
				points.some(
					([x, y]) => x < target.x || x > target.x + target.width || y < target.y || y > target.y + target.height
				)
			);
		});
		const { differences } = compareDeck({ sheets }, strokes);
		expect(differences).toEqual([
			expect.objectContaining({ ...wasFilled, sheet: filled.name, level: 'empty', isFlip: true })
		]);
	});

	test('shows marks on the blank card, each as a flip', () => {
		const [blank] = sheets;
		const { differences } = compareDeck(
			{ sheets },
			readDeck(one, sheets, (sheet) => (sheet === blank ? filled.strokes : sheet.strokes))
		);
		expect(differences.length).toBe(filled.targets.filter(({ drawn }) => drawn === 'fill').length);
		expect(differences.every(({ sheet, level, isFlip }) => sheet === blank!.name && level === 'dark' && isFlip)).toBe(
			true
		);
	});
});

describe('a drawn deck sheet', () => {
	const { layout, election } = cases[0]!;
	const [blank, filled] = planDeck(layout, election).filter(({ page }) => page === 1);

	test('has its strokes, its code and its name under the foot, as text', () => {
		const [plain, marked] = [blank!, filled!].map((sheet) => drawDeckSheet(layout, sheet, encodeCode));
		const paths = (svg: string) => svg.match(/<path d="M[^"]*" stroke="#[0-9a-f]{6}"/g)?.length ?? 0;
		expect(paths(plain!)).toBe(0);
		expect(paths(marked!)).toBe(filled!.strokes.length);
		expect(marked).toContain(`>${filled!.name}</text>`);
		expect(marked).toMatch(/<\/svg>$/);
	});

	test('throws for an eraser, which no printer has', () => {
		const erased = { ...filled!, strokes: [{ tool: 'eraser' as const, points: [[1, 1] as const] }] };
		expect(() => drawDeckSheet(layout, erased, encodeCode)).toThrow(/expected a pen/);
	});
});
