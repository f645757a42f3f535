import type { Contest, Election } from '../election/election';
import type { Layout } from '../layout/layout';
import { layOut } from '../layout/layOutBallot';
import type { PrintedWords } from '../layout/words';

/** Contests for a table: every choice has a digit key of its own, beside those of the four other outcomes. */
const MOST_CHOICES = 6;

/** The contests of a ballot that a table can be dealt, each on a sheet of its own: a style by the contest's id. */
export function tableElection(election: Election): Election {
	const contests = election.contests.filter(isDealt);
	return {
		...election,
		answers: [],
		passages: [],
		dates: [],
		page: { ...election.page, foldsAt: [] },
		contests,
		styles: contests.map(({ id, title }) => ({ id, name: title, precincts: [], contests: [id] }))
	};
}

const isDealt = ({ kind, party, choices }: Contest): boolean =>
	(kind === 'candidates' || kind === 'measure') && party === undefined && choices.length <= MOST_CHOICES;

/** The sheet of every contest of a table's election in one language, by contest. */
export function tableSheets(
	election: Election,
	words: PrintedWords,
	language: string
): Readonly<Record<string, Layout>> {
	return Object.fromEntries(election.contests.map(({ id }) => [id, layOut(election, id, words, [language])]));
}
