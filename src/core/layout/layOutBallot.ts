import { ballotOf } from '../election/ballot';
import type { Contest, Election } from '../election/election';
import { practiceBand } from './band';
import type { Layout, PageLayout, PrintSize } from './layout';
import { columnBottomOf, pageFoot, pageHead } from './pageHead';
import { placeContest, type ContestBlock, type PlacedContest } from './placeContest';
import { columnAt, targetSize, type Sheet } from './sheet';
import { COLUMN_GAP_PT, MARGIN_PT, namePtOf, PAGE, sizesOf } from './sizes';
import type { PrintedWords } from './words';

/**
 * Rows kept off a fold leave a gap in their contest. Up to this height the whole contest moves down
 * instead, so that its rows stay evenly spaced; found by trial.
 */
const MOVE_WHOLE_PT = 26;

/**
 * Where everything of one ballot style is on the practice sheet, in points. `languages`: one or two of
 * the election's, main one first; without it its main language alone. `printSize`: `large` for 18 pt and
 * more, in one column. The same arguments give the same numbers on every device. Contests stand in ballot order, down each column in turn, and are never split:
 * where one is too tall for a column, the sheet has fewer and wider columns than the file asks for.
 *
 * Throws a RangeError for a style or language that is not there, and one that lists every contest too
 * tall for a page of its own.
 */
export function layOut(
	election: Election,
	styleId: string,
	words: PrintedWords,
	languages: readonly string[] = election.languages.slice(0, 1),
	printSize: PrintSize = 'ordinary'
): Layout {
	checkLanguages(election, words, languages);
	const { style, contests } = ballotOf(election, styleId);
	const sheet: Sheet = {
		election,
		words,
		languages,
		shape: election.target.shape,
		side: election.target.side,
		...targetSize(election),
		namePt: namePtOf(printSize, election.page.namePt),
		sizes: sizesOf(printSize),
		foldsPt: election.page.foldsAt.map((share) => share * PAGE.heightPt).sort((a, b) => a - b)
	};
	const heads = [pageHead(sheet, style, contests, true), pageHead(sheet, style, contests, false)] as const;
	const blocks = fittingBlocks(contests, sheet, heads[1].bottom);
	const pages = pour(blocks, sheet, (page) => heads[page === 1 ? 0 : 1].bottom);
	return {
		election: election.id,
		style: style.id,
		languages: [...languages],
		shape: sheet.shape,
		side: sheet.side,
		printSize,
		pages: pages.map((placed, index): PageLayout => {
			const page = index + 1;
			const head = heads[page === 1 ? 0 : 1];
			return {
				page,
				...PAGE,
				foldsPt: sheet.foldsPt,
				contests: placed.map(({ contest }) => contest),
				choices: placed.flatMap(({ choices }) => choices),
				texts: [...head.texts, ...placed.flatMap(({ texts }) => texts), ...pageFoot(sheet, page, pages.length)],
				rules: placed.flatMap(({ rules }) => rules)
			};
		})
	};
}

function checkLanguages(election: Election, words: PrintedWords, languages: readonly string[]): void {
	if (languages.length < 1 || languages.length > 2)
		throw new RangeError(`layOut: expected one or two languages, got ${languages.length}: ${languages.join(', ')}`);
	for (const language of languages) {
		if (!election.languages.includes(language))
			throw new RangeError(
				`layOut: expected a language of the election (${election.languages.join(', ')}), got "${language}"`
			);
		if (!words[language])
			throw new RangeError(
				`layOut: expected printed words in "${language}", got ${Object.keys(words).join(', ')}; pass the section "layout" of its locale file`
			);
	}
}

/** One contest, broken into lines for each column of the page. */
interface Block {
	readonly id: string;
	readonly columns: readonly ContestBlock[];
}

/** The contests in as many columns as the file asks for, or in the most that hold every one of them. */
function fittingBlocks(contests: readonly Contest[], sheet: Sheet, top: number): readonly Block[] {
	const bottomPt = columnBottomOf(sheet);
	const most = Math.min(sheet.election.page.columns, sheet.sizes.mostColumns);
	for (const count of [3, 2, 1] as const) {
		if (count > most) continue;
		const blocks = blocksOf(contests, sheet, count);
		const tooTall = blocks.filter(({ columns }) => columns.some((block) => block(top).bottom > bottomPt));
		if (tooTall.length === 0) return blocks;
		if (count > 1) continue;
		// Large print does not follow the file's size for names.
		const advice =
			sheet.languages.length > 1
				? ' or print one language at a time'
				: sheet.namePt === sheet.election.page.namePt
					? ' or use a smaller size for names'
					: '';
		throw new RangeError(
			`layOut: expected every contest to fit a page, ${Math.floor(bottomPt - top)} pt of height, but these do not: ${tooTall.map(({ id }) => id).join(', ')}; shorten their texts${advice}`
		);
	}
	return [];
}

/** The party notice stands once: where the voter chooses a party, else at the first contest of a party. */
function blocksOf(contests: readonly Contest[], sheet: Sheet, count: 1 | 2 | 3): readonly Block[] {
	const gap = COLUMN_GAP_PT[count];
	const widthPt = (PAGE.widthPt - 2 * MARGIN_PT - gap * (count - 1)) / count;
	const columns = Array.from({ length: count }, (_, i) => {
		const column = columnAt(sheet, MARGIN_PT + i * (widthPt + gap), widthPt);
		return { column, band: practiceBand(sheet, column.x, widthPt) };
	});
	const noticeAt =
		contests.find(({ kind }) => kind === 'party-preference') ?? contests.find(({ party }) => party !== undefined);
	return contests.map((contest) => ({
		id: contest.id,
		columns: columns.map(({ column, band }) => placeContest(contest, sheet, column, band, contest === noticeAt))
	}));
}

/** Contests of each page, in ballot order. The last page's columns are made about equally long. */
function pour(
	blocks: readonly Block[],
	sheet: Sheet,
	topOf: (page: number) => number
): readonly (readonly PlacedContest[])[] {
	const pages: (readonly PlacedContest[])[] = [];
	let rest = blocks;
	do {
		const top = topOf(pages.length + 1);
		let filled = fillPage(rest, sheet, top, columnBottomOf(sheet));
		if (filled.length === rest.length) filled = balance(rest, sheet, top, filled);
		pages.push(filled);
		rest = rest.slice(filled.length);
	} while (rest.length > 0);
	return pages;
}

/** As many of `blocks` as fit a page whose columns run from `top` to `bottom`. */
function fillPage(blocks: readonly Block[], { sizes }: Sheet, top: number, bottom: number): readonly PlacedContest[] {
	const placed: PlacedContest[] = [];
	let column = 0;
	let y = top;
	for (const { columns } of blocks) {
		let found: PlacedContest | undefined;
		while (!found && column < columns.length) {
			const at = columns[column]?.(y);
			if (at && at.bottom <= bottom)
				found = y === top ? at : withEvenRows(at, columns[column], y, bottom, MOVE_WHOLE_PT * sizes.spaces);
			else {
				column += 1;
				y = top;
			}
		}
		if (!found) break;
		placed.push(found);
		y = found.bottom + sizes.contestGapPt;
	}
	return placed;
}

/** The contest moved down as a whole where that closes the gap a fold makes in it. */
function withEvenRows(
	placed: PlacedContest,
	block: ContestBlock | undefined,
	y: number,
	bottom: number,
	mostPt: number
): PlacedContest {
	if (placed.foldGapPt === 0 || placed.foldGapPt > mostPt) return placed;
	const moved = block?.(y + placed.foldGapPt);
	return moved?.foldGapPt === 0 && moved.bottom <= bottom ? moved : placed;
}

/** The same contests with the shortest columns that still hold them all. */
function balance(
	blocks: readonly Block[],
	sheet: Sheet,
	top: number,
	filled: readonly PlacedContest[]
): readonly PlacedContest[] {
	let best = filled;
	let [low, high] = [top, columnBottomOf(sheet)];
	while (high - low > 4) {
		const middle = (low + high) / 2;
		const tried = fillPage(blocks, sheet, top, middle);
		if (tried.length === blocks.length) {
			best = tried;
			high = middle;
		} else low = middle;
	}
	return best;
}
