import type { Box } from '../geometry';
import { handStroke, type Hand } from '../ink/handStroke';
import { placeMark } from '../ink/placeMark';
import type { Stroke, StrokePoint } from '../ink/stroke';
import { writeSquiggle } from '../ink/writeSquiggle';
import type { ChoiceLayout, Layout } from '../layout/layout';
import { randomFrom } from '../random';
import type { CaseMark, ContestCase } from './contestCase';

/** From the end of a name to a word behind it, and the word's length, in points. */
const BEHIND_PT = 2;
const NOTE_PT = 62;

const HAND = { wobblePt: 0.45, speedPtPerMs: 0.16 };

/**
 * The ink of a case on a sheet that holds its contest, as a hand would put it there. The same every time. Throws a
 * RangeError for a choice that the sheet does not have.
 */
export function caseInk({ id, marks }: ContestCase, layout: Layout): readonly Stroke[] {
	return marks.flatMap((mark) => {
		const rows = layout.pages[0]?.choices ?? [];
		const row = rows.find(({ choice }) => choice === mark.choice);
		if (!row) throw new RangeError(`caseInk: expected a row for choice "${mark.choice}" of "${id}", found none`);
		const [dx, dy] = mark.shiftPt ?? [0, 0];
		return firstPart(strokesOf(mark, row, rows, layout), mark.share ?? 1).map((stroke) => ({
			...stroke,
			points: stroke.points.map(([x, y, tMs = 0]): StrokePoint => [round(x + dx), round(y + dy), tMs])
		}));
	});
}

function strokesOf(
	{ kind, tool, seed }: CaseMark,
	row: ChoiceLayout,
	rows: readonly ChoiceLayout[],
	{ shape, side }: Layout
): readonly Stroke[] {
	const hand = { tool, random: randomFrom(seed), ...HAND };
	switch (kind) {
		case 'note':
			return writeSquiggle(hand, behind(row));
		case 'between':
			return placeMark('check', { ...row, target: halfWay(row, rows) }, { tool, shape, side, seed });
		case 'stray':
			return [slip(hand, row)];
		default:
			return placeMark(kind, row, { tool, shape, side, seed });
	}
}

const behind = ({ name }: ChoiceLayout): Box => ({
	x: name.x + name.width + BEHIND_PT,
	y: name.y,
	width: NOTE_PT,
	height: name.height
});

/** As if there were a target half-way to the row below, or above from the last row: smaller than the gap. */
function halfWay(row: ChoiceLayout, rows: readonly ChoiceLayout[]): Box {
	const at = rows.indexOf(row);
	const other = rows[at + 1] ?? rows[at - 1] ?? row;
	const { x, width, height } = row.target;
	const middle = (row.target.y + other.target.y + height) / 2;
	return { x, y: middle - height / 3, width, height: height * 0.66 };
}

/** A pen that slips over the lower edge of the row's target, down and away over the paper. */
function slip(hand: Hand, { target, name }: ChoiceLayout): Stroke {
	const [x, y] = [target.x + target.width * 0.7, target.y + target.height * 0.8];
	return handStroke({ ...hand, speedPtPerMs: 0.5 }, [
		[x, y],
		[x + 8, y + 4 + 2 * hand.random()],
		[name.x + 14 + 20 * hand.random(), y + 7 + 5 * hand.random()]
	]);
}

/** The beginning of the pen's way: whole strokes, then a part of the one in which it ends. A dot is never cut. */
function firstPart(strokes: readonly Stroke[], share: number): readonly Stroke[] {
	if (share >= 1) return strokes;
	let left = strokes.reduce((sum, stroke) => sum + lengthOf(stroke), 0) * share;
	return strokes.flatMap((stroke): readonly Stroke[] => {
		const length = lengthOf(stroke);
		if (left < 0 || (left === 0 && length > 0)) return [];
		const kept = length <= left ? stroke : cut(stroke, left);
		left -= length;
		return [kept];
	});
}

function cut(stroke: Stroke, lengthPt: number): Stroke {
	let gone = 0;
	const end = stroke.points.findIndex(([x, y], i) => {
		const before = stroke.points[i - 1];
		if (before) gone += Math.hypot(x - before[0], y - before[1]);
		return gone > lengthPt;
	});
	return { ...stroke, points: stroke.points.slice(0, Math.max(2, end)) };
}

const lengthOf = ({ points }: Stroke): number =>
	points.reduce((sum, [x, y], i) => {
		const before = points[i - 1];
		return before ? sum + Math.hypot(x - before[0], y - before[1]) : sum;
	}, 0);

const round = (pt: number): number => Math.round(pt * 100) / 100;
