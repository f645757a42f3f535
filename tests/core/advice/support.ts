import { advise } from '$core/advice/advise';
import { county } from '$core/election/demo';
import type { Contest, Election } from '$core/election/election';
import type { Mark, MarkKind, MarkPlace, PageMarks, TargetLevel } from '$core/marks/mark';
import { readMachine } from '$core/reading/readMachine';
import type { ContestReading, PeopleStatement } from '$core/reading/statement';

/** What people say where a test is not about them. */
export const NO_LOOK: PeopleStatement = {
	outcome: 'blank',
	votes: [],
	looks: 'set-aside',
	wouldLook: false,
	clauses: [],
	trace: []
};

/** A mark by its contest, choice, kind and place; ids are given in order. */
export type Sketch = readonly [
	contest: string,
	choice: string | undefined,
	kind: MarkKind,
	place: MarkPlace,
	also?: string | undefined
];

export interface Given {
	readonly election?: Election;
	/** "contest/choice" to its level; all others are empty. */
	readonly levels?: Readonly<Record<string, TargetLevel>>;
	readonly marks?: readonly Sketch[];
	readonly people?: Partial<PeopleStatement>;
}

export const contestOf = (election: Election, id: string): Contest => {
	const found = election.contests.find((contest) => contest.id === id);
	if (!found) throw new Error(`contestOf: no contest "${id}" in the demo`);
	return found;
};

/** One page with every contest of the election on it. */
export function pageOf({ election = county, levels = {}, marks = [] }: Given): PageMarks {
	const score = { dark: 0.9, unsure: 0.4, empty: 0 };
	return {
		page: 1,
		targets: election.contests.flatMap(({ id, choices }) =>
			choices.map((choice) => {
				const level = levels[`${id}/${choice.id}`] ?? 'empty';
				return {
					contest: id,
					choice: choice.id,
					page: 1,
					fill: score[level],
					darkness: score[level],
					score: score[level],
					level
				};
			})
		),
		marks: marks.map(([contest, choice, kind, place, also], i): Mark => ({
			id: `m${i + 1}`,
			page: 1,
			kind,
			place,
			contest,
			...(choice === undefined ? {} : { choice }),
			...(also === undefined ? {} : { alsoTouches: [also] }),
			box: { x: 0, y: i * 20, width: 10, height: 10 },
			confidence: 0.9,
			darkness: 0.8
		}))
	};
}

/** The reading of one contest from what was found. */
export function adviseOn(contest: string, given: Given): ContestReading {
	const { election = county, people } = given;
	const page = pageOf(given);
	const machine = new Map(election.contests.map((one) => [one.id, readMachine(one, [page])]));
	const contests = new Map(election.contests.map((one) => [one.id, { ...NO_LOOK, ...people }]));
	return advise(contestOf(election, contest), election, [page], machine, { contests });
}

/** The keys of advice that hold at one stage, in order. */
export const keysAt = ({ advice }: ContestReading, stage = 'holding'): readonly string[] =>
	advice.filter((one) => one.stage === undefined || one.stage === stage).map(({ key }) => key);
