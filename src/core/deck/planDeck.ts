import type { Election } from '../election/election';
import { placeMark } from '../ink/placeMark';
import type { Stroke, Tool } from '../ink/stroke';
import type { ChoiceLayout, Layout } from '../layout/layout';
import type { TargetLevel } from '../marks/mark';
import { layoutName } from '../sheet/layoutName';
import { DECK_MARKS, dealtMarks, RUNS_TO_NAME, type DeckMark, type DeckMarkId } from './deckMarks';

/** What one target of a deck's sheet was drawn as. */
export interface KnownTarget {
	readonly contest: string;
	readonly choice: string;
	readonly rank?: number;
	readonly drawn: DeckMarkId;
	readonly accept: readonly TargetLevel[];
}

/** One printed sheet with known marks. */
export interface DeckSheet {
	/** Also the name of its file: the layout's name, card and page. */
	readonly name: string;
	readonly card: number;
	readonly page: number;
	readonly strokes: readonly Stroke[];
	readonly targets: readonly KnownTarget[];
}

/** Pens take turns from card to card; pencil and felt-tip are as dark as a ballpoint where they fill. */
const TOOLS: readonly Tool[] = ['ballpoint', 'felt', 'pencil'];

/** What is drawn in each target of one contest, by its place among the contest's targets; the rest stay empty. */
type Marked = ReadonlyMap<number, DeckMarkId>;

/** One contest of the layout, its targets in printed order. */
interface Targets {
	readonly page: number;
	readonly voteFor: number;
	readonly choices: readonly ChoiceLayout[];
}

/**
 * The sheets of a deck for one layout: a blank card; cards that fill every target once, one in each contest; one with
 * more marks than allowed in every contest; one with a cross-out beside a new mark; cards that deal every other kind of
 * mark out over the contests, each twice and more; and write-in lines with and without their target. A page without a
 * mark is printed once, on the blank card. The same layout gives the same deck.
 *
 * It is a check of this reader. It is no logic and accuracy test of voting equipment.
 */
export function planDeck(layout: Layout, election: Election): readonly DeckSheet[] {
	const contests = contestsOf(layout, election);
	const cards: (readonly Marked[])[] = [
		contests.map(() => new Map()),
		...fillEveryTarget(contests),
		contests.map(overvote),
		contests.map(correction),
		...deal(contests, dealtMarks(layout.shape)),
		...writeIns(contests)
	];
	const width = Math.max(2, String(cards.length).length);
	return cards.flatMap((marked, index) =>
		layout.pages.flatMap(({ page }): DeckSheet[] => {
			const here = contests.flatMap((contest, i) => {
				const marks = marked[i];
				return contest.page === page && marks ? [{ contest, marks }] : [];
			});
			if (index > 0 && here.every(({ marks }) => marks.size === 0)) return [];
			const card = index + 1;
			const tool = TOOLS[index % TOOLS.length] ?? 'ballpoint';
			const name = `${layoutName(layout)}-card-${String(card).padStart(width, '0')}-page-${page}`;
			return [
				{
					name,
					card,
					page,
					strokes: here.flatMap(({ contest, marks }) => strokesOf(contest, marks, layout, tool, card)),
					targets: here.flatMap(({ contest, marks }) => knownTargets(contest, marks))
				}
			];
		})
	);
}

function contestsOf(layout: Layout, election: Election): readonly Targets[] {
	return layout.pages.flatMap(({ page, contests, choices }) =>
		contests.map(({ contest, voteFor }) => {
			const isRanked = election.contests.some(({ id, kind }) => id === contest && kind === 'ranked');
			// On a ranked contest one choice has each rank.
			return { page, voteFor: isRanked ? 1 : voteFor, choices: choices.filter((choice) => choice.contest === contest) };
		})
	);
}

/** As many cards as the largest contest has targets: each contest's next target on each card. */
function fillEveryTarget(contests: readonly Targets[]): readonly (readonly Marked[])[] {
	const cards = Math.max(0, ...contests.map(({ choices }) => choices.length));
	return Array.from({ length: cards }, (_, card) =>
		contests.map(({ choices }) => (card < choices.length ? one(card, 'fill') : new Map<number, DeckMarkId>()))
	);
}

/** One target more than allowed; of ranks, two choices at the first. */
function overvote({ voteFor, choices }: Targets): Marked {
	const rivals = choices.flatMap(({ rank }, i) => (rank === undefined || rank === 1 ? [i] : []));
	return new Map(rivals.slice(0, voteFor + 1).map((i) => [i, 'fill']));
}

/** The first target filled and crossed out, the second filled. */
const correction = ({ choices }: Targets): Marked =>
	new Map<number, DeckMarkId>([[0, 'crossed-out'], ...(choices.length > 1 ? [[1, 'fill'] as const] : [])]);

/** Each kind at least twice, every time in another contest, at another of its targets on every card. */
function deal(contests: readonly Targets[], kinds: readonly DeckMarkId[]): readonly (readonly Marked[])[] {
	const cards = contests.length === 0 ? 0 : Math.ceil((2 * kinds.length) / contests.length);
	return Array.from({ length: cards }, (_, card) =>
		contests.map(({ choices }, i) => {
			const kind = kinds[(card * contests.length + i) % kinds.length] ?? 'none';
			return one((card + i) % choices.length, kind);
		})
	);
}

/** Names on all write-in lines: on one card with the target of every second filled, on the other with the others'. */
function writeIns(contests: readonly Targets[]): readonly (readonly Marked[])[] {
	if (contests.every(({ choices }) => choices.every(({ writeIn }) => !writeIn))) return [];
	return [0, 1].map((card) =>
		contests.map(({ choices }, i): Marked => {
			const line = choices.findIndex(({ writeIn }) => writeIn !== undefined);
			return line < 0 ? new Map() : one(line, (card + i) % 2 === 0 ? 'written-filled' : 'written');
		})
	);
}

const one = (place: number, mark: DeckMarkId): Marked => new Map([[place, mark]]);

function strokesOf({ choices }: Targets, marked: Marked, layout: Layout, tool: Tool, card: number): readonly Stroke[] {
	const { shape, side } = layout;
	return [...marked].flatMap(([place, id]) => {
		const choice = choices[place];
		const { parts }: DeckMark = DECK_MARKS[id];
		// Another hand for every target of every card.
		const seed = card * 1000 + place;
		return choice ? parts.flatMap((part) => placeMark(part, choice, { tool, shape, side, seed })) : [];
	});
}

function knownTargets({ choices }: Targets, marked: Marked): readonly KnownTarget[] {
	return choices.map(({ contest, choice, rank }, place) => {
		const isRunThrough = [...marked].some(([other, id]) => RUNS_TO_NAME.has(id) && choices[other]?.choice === choice);
		const drawn = marked.get(place) ?? (isRunThrough ? 'run-through' : 'none');
		const known = { contest, choice, drawn, accept: DECK_MARKS[drawn].accept };
		return rank === undefined ? known : { ...known, rank };
	});
}
