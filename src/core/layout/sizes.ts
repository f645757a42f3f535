import { CAP_HEIGHT, UNITS_PER_EM } from './font/metrics';

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

/** Lowest y of a contest, and the baseline of the page's foot. */
export const COLUMN_BOTTOM_PT = 744;
export const FOOT_BASELINE_PT = 760;

/** Space between columns. Two columns are then 252 pt wide (3.5 in), three 164. */
export const COLUMN_GAP_PT = { 1: 0, 2: 24, 3: 18 } as const;

/** Space between two contests in a column. */
export const CONTEST_GAP_PT = 13;

/** The practice band: two rules with small spaced words between them. */
export const BAND = { heightPt: 11.5, topRulePt: 1.2, bottomRulePt: 0.4, textPt: 6.5, spacingPt: 1.1 } as const;

/** From the band to the first line below it. With that line's height the words stay 6 pt and more from any row. */
export const BAND_TO_TITLE_PT = 5;
export const HEADING_TO_ROWS_PT = 3;

/** Rows are at least this high, so that a ring around one name does not touch the next. */
export const ROW_PT = 22;

/** From the edge of the column to the outer edge of the target, and from the target to the name. */
export const TARGET_INSET_PT = 3;
export const TARGET_TO_NAME_PT = 10;

/** Nothing to be marked comes closer than this to a fold: a crease is up to 0.5 mm wide and rarely where it should be. */
export const FOLD_MARGIN_PT = 6;

/** A write-in line, and the room above it for handwriting. */
export const WRITE_IN = { minWidthPt: 100, heightPt: 19, lineWidthPt: 0.8, dropPt: 3, gapPt: 7, textPt: 10 } as const;

/** Line heights as a share of the size of the text. */
export const LEADING = 1.24;

/** Top and bottom of a line's letters above and below its baseline, as shares of its size: Á to g. */
export const RISE = 0.9;
export const DROP = 0.24;

/** From a baseline up to the middle of the capitals on it, as a share of their size. */
export const CAP_MIDDLE = CAP_HEIGHT / UNITS_PER_EM / 2;

/** Text sizes of the second language and of small lines. */
export const TEXT = {
	titlePt: 12.5,
	secondTitlePt: 11,
	subtitlePt: 10,
	notePt: 10,
	detailPt: 10,
	rankPt: 10,
	footPt: 8.5,
	/** The election's title: the largest of these that keeps it on one line. */
	headPts: [18, 17, 16, 15, 14],
	secondHeadPt: 12
} as const;
