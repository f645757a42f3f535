import type { Text } from '../election/election';
import type { Box } from '../geometry';
import { widthOf } from './font/measure';
import type { FontWeight, TextLine } from './layout';
import { DROP, LEADING, RISE } from './sizes';
import { wrap } from './wrap';

/** A line of text that has no place on the page yet. */
export interface Line {
	readonly text: string;
	readonly language: string;
	readonly sizePt: number;
	readonly weight: FontWeight;
	readonly role: TextLine['role'];
	/** Space before the first line of a paragraph, beyond its line height. */
	readonly beforePt: number;
}

export interface LineStyle {
	readonly sizePt: number;
	readonly weight: FontWeight;
	readonly role: TextLine['role'];
	readonly beforePt?: number;
}

/**
 * The lines of a text in every language of the sheet, one language under the other; `second` is the style of the languages
 * after the first. A language whose text was already printed word for word (most names) is not printed again.
 */
export function linesOf(
	text: Text | undefined,
	languages: readonly string[],
	widthPt: number,
	first: LineStyle,
	second: LineStyle = first
): readonly Line[] {
	const printed = new Set<string>();
	const lines: Line[] = [];
	for (const [place, language] of languages.entries()) {
		const words = text?.[language] ?? '';
		if (printed.has(words)) continue;
		printed.add(words);
		const { sizePt, weight, role, beforePt = 0 } = place === 0 ? first : second;
		for (const [number, line] of wrap(words, weight, sizePt, widthPt).entries())
			lines.push({ text: line, language, sizePt, weight, role, beforePt: number === 0 ? beforePt : 0 });
	}
	return lines;
}

export const leadingOf = (line: Line): number => line.sizePt * LEADING + line.beforePt;

/** Width of the widest line. */
export function widthOfLines(lines: readonly Line[]): number {
	return lines.reduce((widest, { text, weight, sizePt }) => Math.max(widest, widthOf(text, weight, sizePt, 0)), 0);
}

/** Lines under each other, the first baseline at `baseline`. */
export function placeLines(lines: readonly Line[], x: number, baseline: number): readonly TextLine[] {
	let y = baseline;
	return lines.map((line, place) => {
		const before = lines[place - 1];
		if (before) y += before.sizePt * LEADING - baselineIn(before) + line.beforePt + baselineIn(line);
		const { text, language, sizePt, weight, role } = line;
		return { text, x, y, sizePt, weight, spacingPt: 0, language, role };
	});
}

/** A block of lines with its top at `top`: the placed lines and the y of its bottom. */
export function stackLines(
	lines: readonly Line[],
	x: number,
	top: number
): { texts: readonly TextLine[]; bottom: number } {
	const [first] = lines;
	if (!first) return { texts: [], bottom: top };
	const bottom = lines.reduce((y, line) => y + leadingOf(line), top);
	return { texts: placeLines(lines, x, top + first.beforePt + baselineIn(first)), bottom };
}

/** From the top of a line down to its baseline: the letters stand in the middle of the line's height. */
function baselineIn({ sizePt }: Line): number {
	return (sizePt * (LEADING + RISE - DROP)) / 2;
}

/** The box of the letters of placed lines. */
export function boxOfTexts(texts: readonly TextLine[]): Box {
	const left = Math.min(...texts.map(({ x }) => x));
	const top = Math.min(...texts.map(({ y, sizePt }) => y - RISE * sizePt));
	const right = Math.max(...texts.map((line) => line.x + widthOf(line.text, line.weight, line.sizePt, line.spacingPt)));
	const bottom = Math.max(...texts.map(({ y, sizePt }) => y + DROP * sizePt));
	return { x: left, y: top, width: right - left, height: bottom - top };
}
