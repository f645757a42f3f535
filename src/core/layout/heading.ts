import type { Contest, Text } from '../election/election';
import { linesOf, type Line, type LineStyle } from './lines';
import type { Sheet } from './sheet';
import { TEXT } from './sizes';
import { fillIn, type SheetWords } from './words';

const TITLE: LineStyle = { sizePt: TEXT.titlePt, weight: 'bold', role: 'heading' };
const SECOND_TITLE: LineStyle = { sizePt: TEXT.secondTitlePt, weight: 'regular', role: 'heading' };
const SUBTITLE: LineStyle = { sizePt: TEXT.subtitlePt, weight: 'regular', role: 'note' };
const TEXT_STYLE: LineStyle = { sizePt: TEXT.notePt, weight: 'regular', role: 'note', beforePt: 2.5 };
const VOTE: LineStyle = { sizePt: TEXT.notePt, weight: 'bold', role: 'instruction', beforePt: 2.5 };
const SECOND_VOTE: LineStyle = { sizePt: TEXT.notePt, weight: 'regular', role: 'instruction' };

/** The lines above a contest's rows: title, subtitle, text or notice, and how many to choose. */
export function headingLines(contest: Contest, sheet: Sheet, widthPt: number, notice: boolean): readonly Line[] {
	const { election, languages } = sheet;
	const party = election.parties.find(({ id }) => id === contest.party);
	const lines = (text: Text | undefined, first: LineStyle, second: LineStyle = first) =>
		linesOf(text, languages, widthPt, first, second);
	return [
		...lines(contest.title, TITLE, SECOND_TITLE),
		...lines(contest.subtitle ?? party?.name, SUBTITLE),
		...lines(contest.text, TEXT_STYLE),
		...(notice ? lines(election.primaryRule?.notice, TEXT_STYLE) : []),
		...lines(voteFor(contest, sheet), VOTE, SECOND_VOTE)
	];
}

/** How many to choose, in every language of the sheet. */
function voteFor(contest: Contest, { election, words, languages }: Sheet): Text {
	const entries = languages.map((language) => {
		const printed = words[language];
		return [language, printed ? sentence(contest, election.kind === 'neutral', printed) : ''] as const;
	});
	return Object.fromEntries(entries);
}

function sentence(contest: Contest, neutral: boolean, words: SheetWords): string {
	if (contest.kind === 'ranked') {
		const ranks = Math.max(1, contest.ranks ?? contest.choices.length);
		return fillIn(words.rankUpTo, { count: words.numbers[ranks] ?? ranks });
	}
	if (contest.kind === 'party-preference') return words.chooseParty;
	if (contest.kind !== 'candidates') return neutral ? words.chooseYesOrNo : words.voteYesOrNo;
	if (contest.voteFor <= 1) return neutral ? words.chooseOne : words.voteForOne;
	const count = words.numbers[contest.voteFor] ?? contest.voteFor;
	return fillIn(neutral ? words.chooseUpTo : words.voteForUpTo, { count });
}
