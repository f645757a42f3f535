import type { Choice, Contest, Election, TargetStyle } from '$core/election/election';
import { around, grow, type Box } from '$core/geometry';
import { drawPage } from '$core/layout/draw';
import type { ChoiceLayout, Layout } from '$core/layout/layout';
import { layOut } from '$core/layout/layOutBallot';
import type { Practice } from '$lib/state/practice.svelte';
import type { Words } from './words';

/** A contest with a few rows, printed as on the voter's own sheet, to draw marks on. No picture marks a real candidate. */
export interface Example {
	readonly layout: Layout;
	readonly svg: string;
	/** The part of the page to show. */
	readonly view: Box;
	readonly first: ChoiceLayout;
	readonly second: ChoiceLayout;
	readonly writeIn: ChoiceLayout;
	/** The same row as far as its other end, where last time's target stood if it stood on the other side. */
	readonly wholeRow: ChoiceLayout;
}

/** Air around the rows, so that a ring around a name is whole. In points. */
const AIR_PT = 9;

/** Room for a mark at the end of a row. */
const MARK_PT = 14;

/** A contest with made-up choices. */
export function madeUp(practice: Practice, words: Words): Contest {
	const language = languageOf(practice);
	const name = (key: string): Choice['name'] => ({ [language]: words.text(`reading.example.${key}`) });
	return {
		id: 'example',
		kind: 'candidates',
		title: name('title'),
		voteFor: 1,
		choices: [
			{ id: 'first', kind: 'candidate', name: name('first') },
			{ id: 'second', kind: 'candidate', name: name('second') },
			{ id: 'write-in', kind: 'write-in', name: name('writeIn') }
		]
	};
}

/**
 * The contest that the voter is at, or another one of their ballot, for marks at its write-in line; undefined where the
 * ballot has no such line.
 */
export function ownContestOf({ ballot, contest: at }: Practice): Contest | undefined {
	const fit = ballot.contests.filter(
		({ kind, choices }) => kind === 'candidates' && choices.length > 2 && choices.at(-1)?.kind === 'write-in'
	);
	return fit.find(({ id }) => id === at) ?? fit[0];
}

const languageOf = ({ setup }: Practice): string => setup.layout.languages[0] ?? 'en';

/**
 * Lays a contest of three rows or more, the last one a write-in, out by the engine that laid out the ballot: same font,
 * column and targets. `target` takes the place of the election's own, to show how ballots were marked before. Throws an
 * Error for other contests.
 */
export function printed(contest: Contest, practice: Practice, target?: Partial<TargetStyle>): Example {
	const { setup } = practice;
	const election: Election = {
		...setup.election,
		target: { ...setup.election.target, ...target },
		contests: [contest],
		styles: [{ id: 'example', name: contest.title, precincts: [], contests: [contest.id] }]
	};
	const layout = layOut(election, 'example', setup.words, [languageOf(practice)]);
	const page = layout.pages[0];
	const [first, second, ...more] = page?.choices ?? [];
	const writeIn = more.at(-1);
	const own = page?.contests[0];
	if (!own || !first || !second || !writeIn?.writeIn)
		throw new Error(
			`printed: expected contest "${contest.id}" with two rows and a write-in line on page 1, got ${page?.choices.length ?? 0} rows`
		);
	const { x } = writeIn.name;
	const wholeRow = {
		...writeIn,
		name: { ...writeIn.name, width: writeIn.writeIn.x + writeIn.writeIn.width - MARK_PT - x }
	};
	const view = grow(around([own.box, ...page.choices.map(({ row }) => row)]), AIR_PT);
	return { layout, svg: drawPage(layout, 1, { withoutPaper: true }), view, first, second, writeIn, wholeRow };
}
