import type { Choice, Contest, Text } from '../election/election';
import { around, type Box } from '../geometry';
import { detailLines, nameLines, pitchOf, printedBox, writeInLine, writeInLines } from './choiceRow';
import { widthOf } from './font/measure';
import { snapUp } from './grid';
import type { ChoiceLayout, TextLine } from './layout';
import { boxOfTexts, linesOf, placeLines, stackLines, widthOfLines, type Line } from './lines';
import type { Column, Row, Sheet } from './sheet';
import { CAP_MIDDLE, TARGET_INSET_PT, TARGET_TO_NAME_PT } from './sizes';
import { reachOf } from './targetOutline';

/** Free space between the targets of two ranks. */
const CELL_GAP_PT = 9;

/** Space above a name that has its targets under it. */
const NAME_ABOVE_PT = 6;

/** Names narrower than this are hard to read beside a grid: the targets then go under the name. */
const MIN_NAME_PT = 104;

/** Ranks of a ranked contest: as many as the file says, else one for each choice. */
export function ranksOf(contest: Contest): number {
	return Math.max(1, contest.ranks ?? contest.choices.length);
}

/**
 * The rows of a ranked contest: a grid with one target for each choice and rank and the ranks written
 * over its columns; in a column too narrow for that, the targets under each name with their ranks beside them.
 */
export function rankedRows(contest: Contest, sheet: Sheet, column: Column): readonly Row[] {
	const ranks = Array.from({ length: ranksOf(contest) }, (_, i) => i + 1);
	const { outwardPt, inwardPt } = reachOf(sheet.shape);
	const printedPt = outwardPt + sheet.targetWidthPt + inwardPt;
	const heads = ranks.map((rank) => rankLines(rank, sheet));
	const cellPt = snapUp(Math.max(printedPt + CELL_GAP_PT, ...heads.map((lines) => widthOfLines(lines) + 5)));
	const gridPt = cellPt * ranks.length;
	const nameWidthPt = column.widthPt - gridPt - TARGET_TO_NAME_PT;
	if (nameWidthPt < MIN_NAME_PT * sheet.sizes.spaces) {
		return contest.choices.map((choice) => stackedRow(contest, choice, sheet, column, ranks));
	}
	const gridX = sheet.side === 'left' ? column.x : column.x + column.widthPt - gridPt;
	const nameX = sheet.side === 'left' ? column.x + gridPt + TARGET_TO_NAME_PT : column.x;
	const middles = ranks.map((_, i) => gridX + cellPt * (i + 0.5));
	const names = { x: nameX, widthPt: nameWidthPt };
	return [headRow(heads, middles), ...contest.choices.map((choice) => gridRow(contest, choice, sheet, names, middles))];
}

/** "1st" over "choice", in every language of the sheet. */
function rankLines(rank: number, sheet: Sheet): readonly Line[] {
	return sheet.languages.flatMap((language, place) => {
		const words = sheet.words[language];
		const line = (text: string, weight: 'bold' | 'regular'): Line => ({
			text: text.normalize('NFC'),
			language,
			sizePt: sheet.sizes.textPt,
			weight,
			role: 'instruction',
			beforePt: 0
		});
		return [
			line(words?.ranks[rank] ?? String(rank), place === 0 ? 'bold' : 'regular'),
			...(words?.rankedChoice ? [line(words.rankedChoice, 'regular')] : [])
		];
	});
}

function headRow(heads: readonly (readonly Line[])[], middles: readonly number[]): Row {
	return (top) => {
		const stacks = heads.map((lines, i) => {
			const { texts, bottom } = stackLines(lines, 0, top);
			const centred = texts.map((text): TextLine => {
				const width = widthOf(text.text, text.weight, text.sizePt, 0);
				return { ...text, x: (middles[i] ?? 0) - width / 2 };
			});
			return { texts: centred, bottom };
		});
		return {
			choices: [],
			texts: stacks.flatMap(({ texts }) => texts),
			rules: [],
			bottom: snapUp(Math.max(top, ...stacks.map(({ bottom }) => bottom)))
		};
	};
}

function gridRow(
	contest: Contest,
	choice: Choice,
	sheet: Sheet,
	names: { x: number; widthPt: number },
	middles: readonly number[]
): Row {
	const lines = wordsBeside(choice, sheet, names.widthPt);
	const details = detailLines(contest, choice, sheet, names.widthPt);
	const pitch = pitchOf(sheet);
	const [outward, inward] = sidesOf(sheet);
	return (top) => {
		const y = snapUp(top + (pitch - sheet.targetHeightPt) / 2);
		const targets = middles.map((middle) => {
			const printedPt = outward + sheet.targetWidthPt + inward;
			return targetBox(sheet, snapUp(middle - printedPt / 2 + outward - 0.18), y);
		});
		const baseline = y + sheet.targetHeightPt / 2 + CAP_MIDDLE * (lines[0]?.sizePt ?? 0);
		const texts = placeLines([...lines, ...details], names.x, baseline);
		return rankedBlock(contest, choice, sheet, targets, texts, lines.length, names, top + pitch);
	};
}

/** Name, then one or more lines of targets, each with its rank beside it. */
function stackedRow(contest: Contest, choice: Choice, sheet: Sheet, column: Column, ranks: readonly number[]): Row {
	const lines = wordsBeside(choice, sheet, column.widthPt);
	const details = detailLines(contest, choice, sheet, column.widthPt);
	const labels = ranks.map((rank) => shortRank(rank, sheet));
	const [outward, inward] = sidesOf(sheet);
	const labelPt = Math.max(...labels.map(widthOfLines));
	const cellPt = snapUp(TARGET_INSET_PT + outward + sheet.targetWidthPt + inward + 5 + labelPt + CELL_GAP_PT);
	const perLine = Math.max(1, Math.floor((column.widthPt + CELL_GAP_PT) / cellPt));
	const pitch = pitchOf(sheet);
	return (top) => {
		const { texts: words, bottom } = stackLines(
			[...lines, ...details],
			column.x,
			top + NAME_ABOVE_PT * sheet.sizes.spaces
		);
		const writing = choice.kind === 'write-in' ? sheet.sizes.writeIn.heightPt + 2 : 0;
		const firstLine = snapUp(bottom + writing);
		const targets = ranks.map((_, i) => {
			const cellX = column.x + (i % perLine) * cellPt;
			const x = sheet.side === 'left' ? cellX + TARGET_INSET_PT + outward : cellX + labelPt + 5 + outward;
			const middle = firstLine + pitch * (Math.floor(i / perLine) + 0.5);
			return targetBox(sheet, snapUp(x), snapUp(middle - sheet.targetHeightPt / 2));
		});
		const rankTexts = labels.flatMap((label, i) => {
			const target = targets[i];
			if (!target) return [];
			const printed = printedBox(sheet, target);
			const x = sheet.side === 'left' ? printed.x + printed.width + 5 : printed.x - 5 - widthOfLines(label);
			return placeLines(label, x, target.y + target.height / 2 + CAP_MIDDLE * sheet.sizes.textPt);
		});
		const lowest = Math.max(...targets.map(({ y, height }) => y + height));
		const names = { x: column.x, widthPt: column.widthPt };
		const placed = rankedBlock(
			contest,
			choice,
			sheet,
			targets,
			words,
			lines.length,
			names,
			lowest + sheet.sizes.rowFootPt
		);
		return { ...placed, texts: [...placed.texts, ...rankTexts] };
	};
}

/** The rank alone in the sheet's main language: beside a target there is no room for more. */
function shortRank(rank: number, sheet: Sheet): readonly Line[] {
	const [language = 'en'] = sheet.languages;
	const text: Text = { [language]: sheet.words[language]?.ranks[rank] ?? String(rank) };
	return linesOf(text, [language], Infinity, { sizePt: sheet.sizes.textPt, weight: 'regular', role: 'instruction' });
}

function wordsBeside(choice: Choice, sheet: Sheet, widthPt: number): readonly Line[] {
	return choice.kind === 'write-in' ? writeInLines(choice, sheet, widthPt) : nameLines(choice, sheet, widthPt);
}

/** One layout for each rank of a choice; they share the name and, on a write-in, the line under its words. */
function rankedBlock(
	contest: Contest,
	choice: Choice,
	sheet: Sheet,
	targets: readonly Box[],
	texts: readonly TextLine[],
	nameCount: number,
	names: { x: number; widthPt: number },
	atLeast: number
) {
	const name = boxOfTexts(texts.slice(0, nameCount));
	const words = boxOfTexts(texts);
	const writeIn: Box | undefined =
		choice.kind === 'write-in'
			? { x: names.x, y: words.y + words.height + 1, width: names.widthPt, height: sheet.sizes.writeIn.heightPt }
			: undefined;
	const shared = [words, ...(writeIn ? [writeIn] : [])];
	const choices = targets.map((target, i): ChoiceLayout => {
		const row = around([printedBox(sheet, target), ...shared]);
		const one = { contest: contest.id, choice: choice.id, row, target, name, rank: i + 1 };
		return writeIn ? { ...one, writeIn } : one;
	});
	const lowest = Math.max(...choices.map(({ row }) => row.y + row.height)) + sheet.sizes.rowFootPt;
	return { choices, texts, rules: writeIn ? [writeInLine(writeIn)] : [], bottom: snapUp(Math.max(atLeast, lowest)) };
}

function targetBox(sheet: Sheet, x: number, y: number): Box {
	return { x, y, width: sheet.targetWidthPt, height: sheet.targetHeightPt };
}

/** What is printed left and right of a target's box. */
function sidesOf(sheet: Sheet): readonly [left: number, right: number] {
	const { outwardPt, inwardPt } = reachOf(sheet.shape);
	return sheet.side === 'left' ? [outwardPt, inwardPt] : [inwardPt, outwardPt];
}
