import { widthOf } from './font/measure';
import type { FontWeight } from './layout';

/**
 * `text` in lines no wider than `widthPt`, broken at spaces and after hyphens and slashes. A word too
 * long for a line of its own is broken where the line ends. Spaces at the ends of lines are dropped; an
 * empty text gives no lines.
 */
export function wrap(text: string, weight: FontWeight, sizePt: number, widthPt: number): string[] {
	const lines: string[] = [];
	let line = '';
	for (const piece of piecesOf(text)) {
		if (fits(line + piece)) {
			line += piece;
			continue;
		}
		if (line.trim() !== '') lines.push(line.trim());
		line = '';
		for (const character of piece.trimStart()) {
			if (line !== '' && !fits(line + character)) {
				lines.push(line);
				line = '';
			}
			line += character;
		}
	}
	if (line.trim() !== '') lines.push(line.trim());
	return lines;

	function fits(candidate: string): boolean {
		return widthOf(candidate.trim(), weight, sizePt, 0) <= widthPt;
	}
}

/** Words with the spaces before them; words with hyphens or slashes in parts that may stand on different lines. */
function piecesOf(text: string): readonly string[] {
	const plain = text.normalize('NFC').replace(/\s+/gu, ' ').trim();
	return plain.match(/ ?[^ /–—-]*(?:[/–—-]+|(?= )|$)/gu)?.filter((piece) => piece !== '') ?? [];
}
