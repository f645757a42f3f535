import type { Contest } from '../election/election';
import { around, type Box } from '../geometry';
import type { Band } from './band';
import { choiceRow } from './choiceRow';
import { snapUp } from './grid';
import { headingLines } from './heading';
import type { ChoiceLayout, ContestLayout, RuleLine, TextLine } from './layout';
import { boxOfTexts, stackLines } from './lines';
import { rankedRows } from './rankedRows';
import type { Column, Placed, Row, Sheet } from './sheet';
import { FOLD_MARGIN_PT } from './sizes';

export interface PlacedContest {
	readonly contest: ContestLayout;
	readonly choices: readonly ChoiceLayout[];
	readonly texts: readonly TextLine[];
	readonly rules: readonly RuleLine[];
	readonly bottom: number;
	/** Empty space left before rows that would have crossed a fold, in points. */
	readonly foldGapPt: number;
}

/** A contest in a column: gives everything it prints when its band's top is at `top`. */
export type ContestBlock = (top: number) => PlacedContest;

/** Breaks a contest's texts into lines for `column` once, to be placed at any height. */
export function placeContest(
	contest: Contest,
	sheet: Sheet,
	column: Column,
	printBand: Band,
	notice: boolean
): ContestBlock {
	const lines = headingLines(contest, sheet, column.widthPt, notice);
	const rows: readonly Row[] =
		contest.kind === 'ranked'
			? rankedRows(contest, sheet, column)
			: contest.choices.map((choice) => choiceRow(contest, choice, sheet, column));
	return (top) => {
		const band = printBand(top);
		const heading = stackLines(lines, column.x, band.bottom + sheet.sizes.bandToTitlePt);
		const texts = [...band.texts, ...heading.texts];
		const rules = [...band.rules];
		const choices: ChoiceLayout[] = [];
		let y = snapUp(heading.bottom + sheet.sizes.headingToRowsPt);
		let foldGapPt = 0;
		for (const row of rows) {
			const { placed, movedPt } = clearOfFolds(row, y, sheet.foldsPt);
			texts.push(...placed.texts);
			rules.push(...placed.rules);
			choices.push(...placed.choices);
			foldGapPt += movedPt;
			y = placed.bottom;
		}
		const headingBox: Box =
			heading.texts.length > 0
				? boxOfTexts(heading.texts)
				: { x: column.x, y: band.bottom, width: column.widthPt, height: 0 };
		return {
			contest: {
				contest: contest.id,
				box: { x: column.x, y: top, width: column.widthPt, height: y - top },
				heading: headingBox,
				voteFor: contest.voteFor
			},
			choices,
			texts,
			rules,
			bottom: y,
			foldGapPt
		};
	};
}

/** The row at `top`, or below each fold that it would cross or come close to. */
function clearOfFolds(row: Row, top: number, foldsPt: readonly number[]): { placed: Placed; movedPt: number } {
	let at = top;
	let placed = row(at);
	for (const fold of foldsPt) {
		if (placed.choices.length === 0) break;
		const marked = around(placed.choices.map((choice) => choice.row));
		const tooLow = marked.y + marked.height + FOLD_MARGIN_PT;
		if (fold <= marked.y - FOLD_MARGIN_PT || fold >= tooLow) continue;
		at = snapUp(at + fold + FOLD_MARGIN_PT - marked.y);
		placed = row(at);
	}
	return { placed, movedPt: at - top };
}
