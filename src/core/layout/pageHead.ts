import type { BallotStyle, Contest, Text } from '../election/election';
import { widthOf } from './font/measure';
import type { TextLine } from './layout';
import { linesOf, stackLines, type Line, type LineStyle } from './lines';
import type { Sheet } from './sheet';
import { HEAD_FREE_PT, LEADING, MARGIN_PT, PAGE, type Sizes } from './sizes';
import { fillIn, type SheetWords } from './words';

const WIDTH_PT = PAGE.widthPt - 2 * MARGIN_PT;

/** Top of the head's first line, and the space under the head. */
const HEAD_TOP_PT = 36;
const HEAD_FOOT_PT = 13;

/** The head of a page and the y at which its columns begin. The first page's is longer: it says how to mark. */
export function pageHead(sheet: Sheet, style: BallotStyle, contests: readonly Contest[], first: boolean) {
	const lines = first ? firstHead(sheet, style, contests) : laterHead(sheet, style);
	const { texts, bottom } = stackLines(lines, MARGIN_PT, HEAD_TOP_PT);
	return { texts, bottom: bottom + HEAD_FOOT_PT * sheet.sizes.spaces };
}

function firstHead(sheet: Sheet, style: BallotStyle, contests: readonly Contest[]): readonly Line[] {
	const { election, languages, sizes } = sheet;
	const { plain, secondTitle, style: bold, how } = stylesOf(sizes);
	const { pen, mark, writeIn } = election.instructions;
	const writing = contests.some(({ choices }) => choices.some(({ kind }) => kind === 'write-in'));
	const narrow = WIDTH_PT - HEAD_FREE_PT;
	const marking = perLanguage(languages, (tag) => joined([pen[tag], mark[tag], writing ? writeIn[tag] : '']));
	return [
		...linesOf(election.office.name, languages, narrow, plain),
		...linesOf(
			election.title,
			languages,
			narrow,
			titleStyle(election.title[languages[0] ?? ''] ?? '', narrow, sizes),
			secondTitle
		),
		...linesOf(styleName(sheet, style), languages, narrow, bold, plain),
		...linesOf(practiceNote(sheet), languages, narrow, plain),
		...linesOf(marking, languages, WIDTH_PT, how)
	];
}

function stylesOf({ textPt, secondHeadPt, spaces }: Sizes) {
	return {
		plain: { sizePt: textPt, weight: 'regular', role: 'note' },
		secondTitle: { sizePt: secondHeadPt, weight: 'regular', role: 'title' },
		style: { sizePt: textPt, weight: 'bold', role: 'note', beforePt: 2 * spaces },
		how: { sizePt: textPt, weight: 'regular', role: 'note', beforePt: 5 * spaces }
	} as const satisfies Readonly<Record<string, LineStyle>>;
}

function titleStyle(title: string, widthPt: number, { headPts }: Sizes): LineStyle {
	const [largest = 0] = headPts;
	const sizePt = headPts.find((size) => widthOf(title.normalize('NFC'), 'bold', size, 0) <= widthPt) ?? largest;
	return { sizePt, weight: 'bold', role: 'title', beforePt: 1 };
}

function laterHead(sheet: Sheet, style: BallotStyle): readonly Line[] {
	const { election, languages, sizes } = sheet;
	const { plain, style: bold } = stylesOf(sizes);
	const [main = ''] = languages;
	const title = { [main]: joined([election.title[main], styleName(sheet, style)[main]], ' · ') };
	return [
		...linesOf(title, [main], WIDTH_PT - HEAD_FREE_PT, { ...bold, beforePt: 0 }),
		...linesOf(practiceNote(sheet), languages, WIDTH_PT - HEAD_FREE_PT, plain)
	];
}

/** Lowest y of a contest: the foot stands under it. */
export function columnBottomOf({ languages, sizes: { columnBottomPt, foot } }: Sheet): number {
	return foot.linePerLanguage ? columnBottomPt - (languages.length - 1) * foot.textPt * LEADING : columnBottomPt;
}

/** The foot: PRACTICE on the left, the page's number on the right, in every language of the sheet. */
export function pageFoot(sheet: Sheet, page: number, pages: number): readonly TextLine[] {
	const { languages, sizes } = sheet;
	const lines = sizes.foot.linePerLanguage ? languages.map((language) => [language]) : [languages];
	return lines.flatMap((tags, i) => {
		const y = sizes.foot.baselinePt - (lines.length - 1 - i) * sizes.foot.textPt * LEADING;
		return footLine({ ...sheet, languages: tags }, y, page, pages);
	});
}

function footLine(sheet: Sheet, y: number, page: number, pages: number): readonly TextLine[] {
	const [main = 'en'] = sheet.languages;
	const { textPt } = sheet.sizes.foot;
	const practice = joinedIn(sheet, ({ practice: word, notABallot }) => `${word} · ${notABallot}`, ' · ');
	const number = joinedIn(sheet, (words) => fillIn(words.page, { page, pages }), ' / ');
	const line = (text: string, x: number, role: TextLine['role']): TextLine => ({
		text,
		x,
		y,
		sizePt: textPt,
		weight: role === 'practice' ? 'bold' : 'regular',
		spacingPt: role === 'practice' ? 0.8 : 0,
		language: main,
		role
	});
	const right = PAGE.widthPt - MARGIN_PT - widthOf(number, 'regular', textPt, 0);
	return [line(practice, MARGIN_PT, 'practice'), line(number, right, 'footer')];
}

function styleName({ words, languages }: Sheet, style: BallotStyle): Text {
	return perLanguage(languages, (tag) =>
		fillIn(words[tag]?.style ?? '{{name}}', { name: style.name[tag] ?? style.id })
	);
}

/** The office's legal label, that this is practice, and that it stays at home. */
function practiceNote({ election, words, languages }: Sheet): Text {
	return perLanguage(languages, (tag) => {
		const label = election.page.legalLabel?.[tag];
		return joined([joined([label, words[tag]?.practiceNote], ' · '), words[tag]?.keep]);
	});
}

function perLanguage(languages: readonly string[], text: (language: string) => string): Text {
	return Object.fromEntries(languages.map((language) => [language, text(language)]));
}

function joinedIn({ words, languages }: Sheet, text: (words: SheetWords) => string, separator: string): string {
	const texts = languages.flatMap((language) => (words[language] ? [text(words[language])] : []));
	return [...new Set(texts)].join(separator).normalize('NFC');
}

function joined(parts: readonly (string | undefined)[], separator = ' '): string {
	return parts.filter((part) => part).join(separator);
}
