import { CAP_HEIGHT, UNITS_PER_EM } from './font/metrics';
import type { PrintSize } from './layout';

/**
 * Sizes of the printed sheet, in points. Where no reason is given, a size was found by trial on printed
 * and drawn pages. Text a voter needs is 10 pt or more (VVSG 2.0, 7.1-I: 3.5 mm on paper).
 */

/** US letter. */
export const PAGE = { widthPt: 612, heightPt: 792 } as const;

/** Half an inch and a little: office printers reach that far, and the corners stay free. */
export const MARGIN_PT = 42;

/** The head leaves this much free at its right end, for the practice sheet's own code. */
export const HEAD_FREE_PT = 72;

/** Space between columns. Two columns are then 252 pt wide (3.5 in), three 164. */
export const COLUMN_GAP_PT = { 1: 0, 2: 24, 3: 18 } as const;

/** From the edge of the column to the outer edge of the target, and from the target to the name. */
export const TARGET_INSET_PT = 3;
export const TARGET_TO_NAME_PT = 10;

/** Nothing to be marked comes closer than this to a fold: a crease is up to 0.5 mm wide and rarely where it should be. */
export const FOLD_MARGIN_PT = 6;

/** From the last baseline of a write-in's words beside the line down to it, and from the words to the line's start. */
export const WRITE_IN = { lineWidthPt: 0.8, dropPt: 3, gapPt: 7 } as const;

/** Line heights as a share of the size of the text. */
export const LEADING = 1.24;

/** Top and bottom of a line's letters above and below its baseline, as shares of its size: Á to g. */
export const RISE = 0.9;
export const DROP = 0.24;

/** From a baseline up to the middle of the capitals on it, as a share of their size. */
export const CAP_MIDDLE = CAP_HEIGHT / UNITS_PER_EM / 2;

/** What differs between ordinary and large print. */
export interface Sizes {
	/** Spaces around text, as a share of the ordinary ones. */
	readonly spaces: number;
	readonly mostColumns: 1 | 3;
	/** Space between two contests in a column. */
	readonly contestGapPt: number;
	/** The practice band: two rules with small spaced words between them. */
	readonly band: {
		readonly heightPt: number;
		readonly topRulePt: number;
		readonly bottomRulePt: number;
		readonly textPt: number;
		readonly spacingPt: number;
	};
	/** From the band to the first line below it. With that line's height the words stay 6 pt and more from any row. */
	readonly bandToTitlePt: number;
	readonly headingToRowsPt: number;
	/** Rows are at least this high, so that a ring around one name does not touch the next. */
	readonly rowPt: number;
	/** … and at least this many times their name's size. */
	readonly rowPerName: number;
	/** Free space under the last line of a row. */
	readonly rowFootPt: number;
	/** A write-in line, and the room above it for handwriting. */
	readonly writeIn: { readonly minWidthPt: number; readonly heightPt: number };
	/** Least size of names in the second language. */
	readonly secondNamePt: number;
	readonly titlePt: number;
	readonly secondTitlePt: number;
	/** Everything else a voter reads: subtitles, texts, party and rank, write-in words. */
	readonly textPt: number;
	/** The election's title: the largest of these that keeps it on one line. */
	readonly headPts: readonly number[];
	readonly secondHeadPt: number;
	/** Lowest y of a contest over a foot of one line. */
	readonly columnBottomPt: number;
	/** The page's foot: its size, its last baseline, and whether every language has a line of its own there. */
	readonly foot: { readonly textPt: number; readonly baselinePt: number; readonly linePerLanguage: boolean };
}

const ORDINARY: Sizes = {
	spaces: 1,
	mostColumns: 3,
	contestGapPt: 13,
	band: { heightPt: 11.5, topRulePt: 1.2, bottomRulePt: 0.4, textPt: 6.5, spacingPt: 1.1 },
	bandToTitlePt: 5,
	headingToRowsPt: 3,
	rowPt: 22,
	rowPerName: 2,
	rowFootPt: 5,
	writeIn: { minWidthPt: 100, heightPt: 19 },
	secondNamePt: 10,
	titlePt: 12.5,
	secondTitlePt: 11,
	textPt: 10,
	headPts: [18, 17, 16, 15, 14],
	secondHeadPt: 12,
	columnBottomPt: 744,
	foot: { textPt: 8.5, baselinePt: 760, linePerLanguage: false }
};

/**
 * Large print: 18 pt and more for everything a voter reads, page numbers too, larger headings, lines of a quarter more
 * than the letters and one column (American Council of the Blind, Large Print Guidelines, 2022: acb.org/node/173). The
 * words of the practice band are smaller: the foot of every page says the same in full size.
 *
 * Targets keep the election's own size. What is practised is how a mark in this outline is read, so the outline, and
 * with it the reading of the same mark, must not depend on the size of the text beside it.
 */
const LARGE: Sizes = {
	spaces: 1.8,
	mostColumns: 1,
	contestGapPt: 23,
	band: { heightPt: 20, topRulePt: 2, bottomRulePt: 0.7, textPt: 11.5, spacingPt: 2 },
	bandToTitlePt: 8,
	headingToRowsPt: 5,
	rowPt: 36,
	rowPerName: 1.8,
	rowFootPt: 6,
	writeIn: { minWidthPt: 180, heightPt: 30 },
	secondNamePt: 18,
	titlePt: 22,
	secondTitlePt: 20,
	textPt: 18,
	headPts: [22],
	secondHeadPt: 20,
	columnBottomPt: 733,
	foot: { textPt: 18, baselinePt: 758, linePerLanguage: true }
};

const SIZES: Readonly<Record<PrintSize, Sizes>> = { ordinary: ORDINARY, large: LARGE };

export const sizesOf = (printSize: PrintSize): Sizes => SIZES[printSize];

/** Least size of names in large print; the election file's own size is for ordinary print. */
const LARGE_NAME_PT = 20;

export const namePtOf = (printSize: PrintSize, ownPt: number): number =>
	printSize === 'large' ? Math.max(LARGE_NAME_PT, ownPt) : ownPt;
