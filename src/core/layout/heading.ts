import type { Contest, Text } from '../election/election';
import { linesOf, type Line, type LineStyle } from './lines';
import type { Sheet } from './sheet';
import type { Sizes } from './sizes';
import { fillIn, type SheetWords } from './words';

/** The lines above a contest's rows: title, subtitle, text or notice, and how many to choose. */
export function headingLines(contest: Contest, sheet: Sheet, widthPt: number, notice: boolean): readonly Line[] {
	const { election, languages } = sheet;
	const party = election.parties.find(({ id }) => id === contest.party);
	const styles = stylesOf(sheet.sizes);
	const lines = (text: Text | undefined, first: LineStyle, second: LineStyle = first) =>
		linesOf(text, languages, widthPt, first, second);
	return [
		...lines(contest.title, styles.title, styles.secondTitle),
		...lines(contest.subtitle ?? party?.name, styles.subtitle),
		...lines(contest.text, styles.text),
		...(notice ? lines(election.primaryRule?.notice, styles.text) : []),
		...lines(voteFor(contest, sheet), styles.vote, styles.secondVote)
	];
}

function stylesOf({ titlePt, secondTitlePt, textPt, spaces }: Sizes) {
	const beforePt = 2.5 * spaces;
	return {
		title: { sizePt: titlePt, weight: 'bold', role: 'heading' },
		secondTitle: { sizePt: secondTitlePt, weight: 'regular', role: 'heading' },
		subtitle: { sizePt: textPt, weight: 'regular', role: 'note' },
		text: { sizePt: textPt, weight: 'regular', role: 'note', beforePt },
		vote: { sizePt: textPt, weight: 'bold', role: 'instruction', beforePt },
		secondVote: { sizePt: textPt, weight: 'regular', role: 'instruction' }
	} as const satisfies Readonly<Record<string, LineStyle>>;
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
