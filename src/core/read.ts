import { advise } from './advice/advise';
import { ballotOf } from './election/ballot';
import type { Election } from './election/election';
import type { GreyImage } from './image';
import type { Layout } from './layout/layout';
import { findMarks } from './marks/findMarks';
import type { PageMarks } from './marks/mark';
import { numberMarks } from './marks/numberMarks';
import { readMachine } from './reading/readMachine';
import type { BallotStatement, ContestReading } from './reading/statement';
import { evaluate } from './rules/evaluate';
import { gatherFacts } from './rules/facts';
import type { Rulebook } from './rules/rule';

/** All that a page image needs to be read: what was printed on it, where, and by which rule people decide. */
export interface OpenBallot {
	readonly election: Election;
	readonly layout: Layout;
	readonly rulebook: Rulebook;
	/** The printed page without ink, for each page of the layout in order. */
	readonly prints: readonly GreyImage[];
}

/**
 * What came of one ballot. `pages` holds what was found on the pages that were seen; the others are unknown, not blank.
 * `contests` are those of the pages seen, or those of them that were asked for.
 */
export interface BallotReading {
	readonly pages: readonly PageMarks[];
	readonly contests: readonly ContestReading[];
	readonly ballot: BallotStatement;
}

/**
 * The spine: page images in, readings out. `images` maps page numbers (from 1) to grey pages of the
 * layout's size; a page that is missing there was not seen.
 */
export function readBallot(images: ReadonlyMap<number, GreyImage>, open: OpenBallot): BallotReading {
	const pages = [...images].map(([page, image]) => readPage(image, page, open));
	return readMarks(numberMarks(pages), open);
}

/** What is on one page: the measure of every target and every mark that was not printed. */
export function readPage(image: GreyImage, page: number, open: OpenBallot): PageMarks {
	const print = open.prints[page - 1];
	if (!print) throw new RangeError(`readPage: expected a page from 1 to ${open.prints.length}, got ${page}`);
	return findMarks(image, print, open.layout, page, { thresholds: open.election.thresholds });
}

/**
 * From what was found on the pages seen to the three statements on every contest of those pages. With `wanted` (ids of
 * contests) only those are put together, each the same as without it: all that is on the ballot is looked at.
 */
export function readMarks(pages: readonly PageMarks[], open: OpenBallot, wanted?: ReadonlySet<string>): BallotReading {
	const { election, layout, rulebook } = open;
	const { contests } = ballotOf(election, layout.style);
	const seen = contests.filter((contest) => pages.some((page) => page.targets.some((t) => t.contest === contest.id)));
	const machine = new Map(seen.map((contest) => [contest.id, readMachine(contest, pages)]));
	const people = evaluate(rulebook, gatherFacts(election, layout, pages, machine));
	return {
		pages,
		contests: seen
			.filter(({ id }) => wanted?.has(id) ?? true)
			.map((contest) => advise(contest, election, pages, machine, people)),
		ballot: people.ballot
	};
}
