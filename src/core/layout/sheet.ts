import type { Election, TargetShape, TargetSide } from '../election/election';
import { snapDown, snapSize, snapUp } from './grid';
import type { ChoiceLayout, RuleLine, TextLine } from './layout';
import { TARGET_INSET_PT, TARGET_TO_NAME_PT, type Sizes } from './sizes';
import { reachOf } from './targetOutline';
import type { PrintedWords } from './words';

/** What all contests of one sheet share. */
export interface Sheet {
	readonly election: Election;
	readonly words: PrintedWords;
	readonly languages: readonly string[];
	readonly shape: TargetShape;
	readonly side: TargetSide;
	/** Size of every target, on the 200 dpi grid. */
	readonly targetWidthPt: number;
	readonly targetHeightPt: number;
	readonly namePt: number;
	readonly sizes: Sizes;
	readonly foldsPt: readonly number[];
}

/** One column of a page, and where the targets and names of its rows begin. */
export interface Column {
	readonly x: number;
	readonly widthPt: number;
	readonly targetX: number;
	readonly nameX: number;
	readonly nameWidthPt: number;
}

/** What a row or a block of rows puts on the page. */
export interface Placed {
	readonly choices: readonly ChoiceLayout[];
	readonly texts: readonly TextLine[];
	readonly rules: readonly RuleLine[];
	/** y below which the next row may begin. */
	readonly bottom: number;
}

/** A row with its contents known but not its height on the page: gives what it puts there when its top is at `top`. */
export type Row = (top: number) => Placed;

export function targetSize(election: Election): Pick<Sheet, 'targetWidthPt' | 'targetHeightPt'> {
	const { widthPt, heightPt } = election.target;
	return { targetWidthPt: snapSize(widthPt), targetHeightPt: snapSize(heightPt) };
}

/** A column at `x`: on the left of the page's names or on their right stand the targets, all at one x. */
export function columnAt(sheet: Sheet, x: number, widthPt: number): Column {
	const { outwardPt, inwardPt } = reachOf(sheet.shape);
	const right = x + widthPt;
	if (sheet.side === 'left') {
		const targetX = snapUp(x + TARGET_INSET_PT + outwardPt);
		const nameX = targetX + sheet.targetWidthPt + inwardPt + TARGET_TO_NAME_PT;
		return { x, widthPt, targetX, nameX, nameWidthPt: right - nameX };
	}
	const targetX = snapDown(right - TARGET_INSET_PT - outwardPt - sheet.targetWidthPt);
	return { x, widthPt, targetX, nameX: x, nameWidthPt: targetX - inwardPt - TARGET_TO_NAME_PT - x };
}
