import { leastCertain } from '../advice/leastCertain';
import { ballotOf } from '../election/ballot';
import type { Election } from '../election/election';
import { findMarks } from '../marks/findMarks';
import type { PageMarks } from '../marks/mark';
import { numberMarks } from '../marks/numberMarks';
import { inkPage } from '../page/inkPage';
import { printPage } from '../page/printPage';
import { readMachine } from '../reading/readMachine';
import { gatherFacts, type BallotFacts, type Told } from '../rules/facts';
import type { Layout } from '../layout/layout';
import { caseInk } from './caseInk';
import type { ContestCase } from './contestCase';

/** As many as a table is dealt. The hundred least certain come first at review tables: common practice, no source. */
export const MOST_DEALT = 100;

/** A case as the reader found it. What a rulebook makes of it is not in it. */
export interface ReadCase extends ContestCase {
	readonly found: PageMarks;
	/** 0 (could go either way) to 1; that of the least certain mark. A contest with nothing on it is certain. */
	readonly certainty: number;
}

/**
 * Draws and reads every case as any ballot is, and deals the least certain `most` of them, least certain first; those
 * alike in that stand in the order of the list. `layouts`: the sheet of each contest.
 */
export function readQueue(
	cases: readonly ContestCase[],
	election: Election,
	layouts: Readonly<Record<string, Layout>>,
	most = MOST_DEALT
): readonly ReadCase[] {
	const prints = new Map(Object.entries(layouts).map(([contest, layout]) => [contest, printPage(layout, 1)]));
	const read = cases.map((one): ReadCase => {
		const layout = layouts[one.contest];
		const print = prints.get(one.contest);
		if (!layout || !print) throw new RangeError(`readQueue: expected a sheet of "${one.contest}", got none`);
		const anchors = (layout.pages[0]?.choices ?? []).map(({ target }) => target);
		const image = inkPage(print, { page: 1, strokes: caseInk(one, layout) }, anchors);
		const { thresholds } = election;
		const [found] = numberMarks([findMarks(image, print, layout, 1, { thresholds })]);
		if (!found) throw new RangeError(`readQueue: expected one page of "${one.id}", found none`);
		return { ...one, found, certainty: leastCertain([found], thresholds)[0]?.certainty ?? 1 };
	});
	return read.sort((a, b) => a.certainty - b.certainty).slice(0, most);
}

/** A case as rulebooks are asked about it: its one contest, and what a person has said of the handwriting. */
export function factsOfCase({ contest, found, says }: ReadCase, election: Election, layout: Layout): BallotFacts {
	const { contests } = ballotOf(election, layout.style);
	const machine = new Map(
		contests.filter(({ id }) => id === contest).map((one) => [one.id, readMachine(one, [found])])
	);
	return gatherFacts(election, layout, [found], machine, toldOf(says, found));
}

function toldOf(says: ContestCase['says'], { marks }: PageMarks): Told {
	const words = marks.flatMap((mark) => {
		const isWritten = mark.kind === 'writing' || mark.place === 'write-in';
		const said = isWritten ? says.find(({ choice }) => choice === mark.choice) : undefined;
		if (!said) return [];
		return [[mark.id, { says: said.says, ...(said.names === undefined ? {} : { choice: said.names }) }] as const];
	});
	return words.length > 0 ? { words: new Map(words) } : {};
}
