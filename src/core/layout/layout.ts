import type { Box } from '../geometry';
import type { TargetShape, TargetSide } from '../election/election';

/** `large` is for voters with low vision: 18 pt and more, in one column, so on more pages. */
export type PrintSize = 'ordinary' | 'large';

/**
 * A laid-out ballot: where everything is, in points. Made once by `layOut`; screen, print, page image,
 * reader and command line all use these numbers.
 */
export interface Layout {
	readonly election: string;
	readonly style: string;
	/** Languages printed on the sheet, main one first (one or two). */
	readonly languages: readonly string[];
	readonly shape: TargetShape;
	readonly side: TargetSide;
	readonly printSize: PrintSize;
	readonly pages: readonly PageLayout[];
}

export interface PageLayout {
	/** From 1. */
	readonly page: number;
	readonly widthPt: number;
	readonly heightPt: number;
	/** y of each fold line, in points. */
	readonly foldsPt: readonly number[];
	readonly contests: readonly ContestLayout[];
	readonly choices: readonly ChoiceLayout[];
	/** Everything printed as text, line by line, ready to draw. */
	readonly texts: readonly TextLine[];
	/** Rules and write-in lines. */
	readonly rules: readonly RuleLine[];
}

export interface ContestLayout {
	readonly contest: string;
	/** From the practice band to the last row. */
	readonly box: Box;
	/** The printed heading: title, subtitle, "vote for". */
	readonly heading: Box;
	readonly voteFor: number;
}

export interface ChoiceLayout {
	readonly contest: string;
	readonly choice: string;
	/** Target and name together. */
	readonly row: Box;
	/** The outline's outer box; of a broken arrow, its gap. On the 200 dpi grid. */
	readonly target: Box;
	/** The printed name's box, all its lines. */
	readonly name: Box;
	/** Where handwriting goes, on a write-in row. */
	readonly writeIn?: Box;
	/** On a ranked contest: which rank this target gives, from 1. */
	readonly rank?: number;
}

export type FontWeight = 'regular' | 'bold';

/** One line of printed text. `x`, `y`: start of its baseline, in points. */
export interface TextLine {
	readonly text: string;
	readonly x: number;
	readonly y: number;
	readonly sizePt: number;
	readonly weight: FontWeight;
	/** Extra space after each letter, in points. */
	readonly spacingPt: number;
	readonly language: string;
	/** What it is: decides colour on screen and how dark it prints. */
	readonly role: 'title' | 'note' | 'heading' | 'instruction' | 'name' | 'detail' | 'practice' | 'footer';
}

export interface RuleLine {
	readonly x1: number;
	readonly y1: number;
	readonly x2: number;
	readonly y2: number;
	readonly widthPt: number;
	readonly role: 'band' | 'write-in' | 'frame';
}
