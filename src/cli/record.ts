import type { BallotReading, OpenBallot } from '../core/read';
import { tuple } from './verbs/layout';

/** The record of one file, with the field names of the command line's contract. What is not there has no field in JSON. */
export function recordOf(
	file: string,
	{ pages, contests, ballot }: BallotReading,
	{ election, layout, rulebook }: OpenBallot
) {
	return {
		file,
		election: election.id,
		style: layout.style,
		pages: pages.map(({ page }) => page),
		rulebook: rulebook.id,
		marks: pages.flatMap(({ marks }) =>
			marks.map(({ id, page, kind, place, contest, choice, rank, alsoTouches, box, confidence }) => ({
				id,
				page,
				kind,
				place,
				contest,
				choice,
				rank,
				alsoTouches,
				box: tuple(box),
				confidence: round(confidence)
			}))
		),
		contests: contests.map(({ contest, machine, people, advice, warned }) => ({
			contest,
			machine: {
				...machine,
				targets: machine.targets.map(({ choice, rank, fill, darkness, score, level }) => ({
					choice,
					...(rank === undefined ? {} : { rank }),
					fill: round(fill),
					darkness: round(darkness),
					score: round(score),
					level
				}))
			},
			people,
			advice,
			warned
		})),
		ballot
	};
}

const round = (share: number): number => Math.round(share * 10000) / 10000;
