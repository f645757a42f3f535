import type { i18n as I18n } from 'i18next';
import type { Election } from '$core/election/election';
import { textIn } from '$core/election/text';
import type { PeopleOutcome } from '$core/reading/statement';
import type { ContestVerdict, RulebookVerdict } from '$core/rules/compareRulebooks';
import type { IconName } from '$lib/ui/icons';
import { list, wordsOf } from '$lib/notes/words';
import type { Lang } from '$lib/i18n/i18n';

/** One thing that a rulebook comes to, in words. */
export interface Said {
	readonly text: string;
	/** A filled oval: a vote. An empty one: none. A half-filled one: people must decide. A question mark: silence. */
	readonly sign: IconName;
}

type Sayable = Pick<RulebookVerdict, 'contests' | 'ballot'>;

/** What a verdict comes to, line by line: each contest (named where there are several), then the sheet as a whole. */
export function sayVerdict({ contests, ballot }: Sayable, election: Election, lang: Lang, i18n: I18n): readonly Said[] {
	const sheet: readonly Said[] =
		ballot === 'none'
			? []
			: [
					{
						text: i18n.t(`rulesPage.compare.ballot.${ballot}`),
						sign: SIGN_OF_SHEET[ballot]
					}
				];
	// Nothing more is left to say of the contests of a ballot that is set aside.
	if (ballot === 'void-ballot') return sheet;
	return [...contests.map((one) => sayContest(one, contests.length > 1, election, lang, i18n)), ...sheet];
}

function sayContest(
	{ contest, outcome, votes }: ContestVerdict,
	named: boolean,
	election: Election,
	lang: Lang,
	i18n: I18n
): Said {
	const printed = election.contests.find(({ id }) => id === contest);
	const words = wordsOf(i18n, lang, election, printed);
	// A vote for nobody is what other rules call no vote.
	const said = outcome === 'vote' && votes.length === 0 ? 'no-vote' : outcome;
	const names = votes.map((id) => words.choice(id));
	const text = words.text(`rulesPage.compare.outcome.${said}`, { choices: list(lang, names) });
	return {
		text:
			named && printed
				? words.text('rulesPage.compare.inContest', { contest: textIn(printed.title, lang), outcome: text })
				: text,
		sign: SIGN_OF_CONTEST[said] ?? 'empty'
	};
}

const SIGN_OF_CONTEST: Readonly<Partial<Record<PeopleOutcome, IconName>>> = {
	vote: 'calm',
	undervote: 'calm',
	refer: 'maybe',
	silent: 'question'
};
const SIGN_OF_SHEET = { 'void-ballot': 'empty', duplicate: 'paper', refer: 'maybe', silent: 'question' } as const;
