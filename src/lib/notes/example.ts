import type { Choice, Contest, Election, TargetStyle } from '$core/election/election';
import { around, grow, type Box } from '$core/geometry';
import { drawPage } from '$core/layout/draw';
import type { ChoiceLayout, Layout } from '$core/layout/layout';
import { layOut } from '$core/layout/layOutBallot';
import type { Practice } from '$lib/state/practice.svelte';
import type { Words } from './words';

/** A few rows printed as on the voter's own sheet, with made-up choices: no picture fills a real candidate's target. */
export interface Example {
	readonly layout: Layout;
	readonly svg: string;
	/** The part of the page to show. */
	readonly view: Box;
	readonly first: ChoiceLayout;
	readonly second: ChoiceLayout;
	readonly writeIn: ChoiceLayout;
}

/** Air around the rows, so that a ring around a name is whole. In points. */
const AIR_PT = 9;

/**
 * Lays the example out by the engine that laid out the ballot: same font, column and targets. `target`
 * takes the place of the election's own, to show how ballots were marked before.
 */
export function exampleOf(practice: Practice, words: Words, target?: Partial<TargetStyle>): Example {
	const { setup } = practice;
	const language = setup.layout.languages[0] ?? 'en';
	const name = (key: string): Choice['name'] => ({ [language]: words.text(`reading.example.${key}`) });
	const contest: Contest = {
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
	const election: Election = {
		...setup.election,
		target: { ...setup.election.target, ...target },
		contests: [contest],
		styles: [{ id: 'example', name: name('title'), precincts: [], contests: ['example'] }]
	};
	const layout = layOut(election, 'example', setup.words, [language]);
	const page = layout.pages[0];
	const [first, second, writeIn] = page?.choices ?? [];
	const printed = page?.contests[0];
	if (!printed || !first || !second || !writeIn)
		throw new Error(`exampleOf: expected a contest with three rows on page 1, got ${page?.choices.length ?? 0} rows`);
	const view = grow(around([printed.box, ...page.choices.map(({ row }) => row)]), AIR_PT);
	return { layout, svg: drawPage(layout, 1, { withoutPaper: true }), view, first, second, writeIn };
}
