import type { Choice, Contest } from '../election/election';
import { around, type Box } from '../geometry';
import { snapUp } from './grid';
import type { RuleLine } from './layout';
import { boxOfTexts, linesOf, placeLines, widthOfLines, type Line } from './lines';
import type { Column, Row, Sheet } from './sheet';
import { CAP_MIDDLE, WRITE_IN } from './sizes';
import { reachOf } from './targetOutline';

/** Height of a row with one line: the name's line with air, and room for the target. */
export function pitchOf(sheet: Sheet): number {
	return snapUp(Math.max(sheet.sizes.rowPt, sheet.namePt * sheet.sizes.rowPerName, sheet.targetHeightPt + 8));
}

/** The row of one choice: its target with the middle of the name's first line at the target's middle. */
export function choiceRow(contest: Contest, choice: Choice, sheet: Sheet, column: Column): Row {
	return choice.kind === 'write-in'
		? writeInRow(contest, choice, sheet, column)
		: nameRow(contest, choice, sheet, column);
}

function nameRow(contest: Contest, choice: Choice, sheet: Sheet, column: Column): Row {
	const names = nameLines(choice, sheet, column.nameWidthPt);
	const details = detailLines(contest, choice, sheet, column.nameWidthPt);
	const pitch = pitchOf(sheet);
	return (top) => {
		const target = targetAt(sheet, column, top + (pitch - sheet.targetHeightPt) / 2);
		const texts = placeLines([...names, ...details], column.nameX, baselineBeside(target, names));
		const name = boxOfTexts(texts.slice(0, names.length));
		const row = around([printedBox(sheet, target), boxOfTexts(texts)]);
		const bottom = snapUp(Math.max(top + pitch, row.y + row.height + sheet.sizes.rowFootPt));
		return { choices: [{ contest: contest.id, choice: choice.id, row, target, name }], texts, rules: [], bottom };
	};
}

/** Words, then the line: beside them where a hand has room to write, else under them. */
function writeInRow(contest: Contest, choice: Choice, sheet: Sheet, column: Column): Row {
	const { minWidthPt, heightPt } = sheet.sizes.writeIn;
	const words = writeInLines(choice, sheet, column.nameWidthPt);
	const besideX = column.nameX + widthOfLines(words) + WRITE_IN.gapPt;
	const right = column.nameX + column.nameWidthPt;
	const beside = right - besideX >= minWidthPt;
	const pitch = pitchOf(sheet);
	// The first line's middle; beside the words, low enough for the writing above the line.
	const middle = beside
		? Math.max(pitch / 2, heightPt - WRITE_IN.dropPt - CAP_MIDDLE * sheet.sizes.textPt + 2)
		: pitch / 2;
	return (top) => {
		const target = targetAt(sheet, column, top + middle - sheet.targetHeightPt / 2);
		const texts = placeLines(words, column.nameX, baselineBeside(target, words));
		const name = boxOfTexts(texts);
		const lastBaseline = texts.at(-1)?.y ?? name.y;
		const x = beside ? besideX : column.nameX;
		const lineY = beside ? lastBaseline + WRITE_IN.dropPt : name.y + name.height + 1 + heightPt;
		const writeIn: Box = { x, y: lineY - heightPt, width: right - x, height: heightPt };
		const row = around([printedBox(sheet, target), name, writeIn]);
		const bottom = snapUp(Math.max(top + pitch, row.y + row.height + sheet.sizes.rowFootPt));
		return {
			choices: [{ contest: contest.id, choice: choice.id, row, target, name, writeIn }],
			texts,
			rules: [writeInLine(writeIn)],
			bottom
		};
	};
}

export function nameLines(choice: Choice, sheet: Sheet, widthPt: number): readonly Line[] {
	const lines = linesOf(
		choice.name,
		sheet.languages,
		widthPt,
		{ sizePt: sheet.namePt, weight: 'regular', role: 'name' },
		{ sizePt: Math.max(sheet.sizes.secondNamePt, sheet.namePt - 1), weight: 'regular', role: 'name' }
	);
	return lines.length > 0 ? lines : missing(choice.id, sheet);
}

/** The party, where the contest's heading does not name it already, and the choice's second line. */
export function detailLines(contest: Contest, choice: Choice, sheet: Sheet, widthPt: number): readonly Line[] {
	const style = { sizePt: sheet.sizes.textPt, weight: 'regular', role: 'detail' } as const;
	const party =
		contest.kind === 'party-preference' || choice.party === contest.party
			? undefined
			: sheet.election.parties.find(({ id }) => id === choice.party);
	return [
		...linesOf(party?.name, sheet.languages, widthPt, style),
		...linesOf(choice.detail, sheet.languages, widthPt, style)
	];
}

export function writeInLines(choice: Choice, sheet: Sheet, widthPt: number): readonly Line[] {
	const style = { sizePt: sheet.sizes.textPt, weight: 'regular', role: 'detail' } as const;
	const own = linesOf(choice.name, sheet.languages, widthPt, style);
	if (own.length > 0) return own;
	const words = Object.fromEntries(sheet.languages.map((tag) => [tag, sheet.words[tag]?.writeIn ?? '']));
	const ours = linesOf(words, sheet.languages, widthPt, style);
	return ours.length > 0 ? ours : missing(choice.id, sheet);
}

/** A choice without a name in the file still gets a row that can be told from the others. */
function missing(id: string, sheet: Sheet): readonly Line[] {
	const language = sheet.languages[0] ?? 'en';
	return [{ text: id, language, sizePt: sheet.namePt, weight: 'regular', role: 'name', beforePt: 0 }];
}

function targetAt(sheet: Sheet, column: Column, y: number): Box {
	return { x: column.targetX, y: snapUp(y), width: sheet.targetWidthPt, height: sheet.targetHeightPt };
}

function baselineBeside(target: Box, lines: readonly Line[]): number {
	return target.y + target.height / 2 + CAP_MIDDLE * (lines[0]?.sizePt ?? 0);
}

/** The target's box with the ends of a broken arrow. */
export function printedBox(sheet: Sheet, target: Box): Box {
	const { outwardPt, inwardPt } = reachOf(sheet.shape);
	const left = sheet.side === 'left' ? outwardPt : inwardPt;
	return { ...target, x: target.x - left, width: target.width + outwardPt + inwardPt };
}

export function writeInLine(box: Box): RuleLine {
	const y = box.y + box.height;
	return { x1: box.x, y1: y, x2: box.x + box.width, y2: y, widthPt: WRITE_IN.lineWidthPt, role: 'write-in' };
}
