import { widthOf } from './font/measure';
import type { FontWeight } from './layout';

/** Sums of the same widths in another order differ by less. */
const ROUNDING_PT = 1e-6;

/**
 * `text` in lines no wider than `widthPt`, broken at spaces and after hyphens and slashes. A word too
 * long for a line of its own is broken where the line ends. Spaces at the ends of lines are dropped; an
 * empty text gives no lines.
 */
export function wrap(text: string, weight: FontWeight, sizePt: number, widthPt: number): string[] {
	const lines: string[] = [];
	let line = '';
	let linePt = 0;
	for (const piece of piecesOf(text)) {
		const piecePt = widthOf(piece, weight, sizePt, 0);
		if (linePt + piecePt <= widthPt + ROUNDING_PT) {
			line += piece;
			linePt += piecePt;
			continue;
		}
		endLine();
		for (const character of piece.trimStart()) {
			const characterPt = widthOf(character, weight, sizePt, 0);
			if (line !== '' && linePt + characterPt > widthPt + ROUNDING_PT) endLine();
			line += character;
			linePt += characterPt;
		}
	}
	endLine();
	return lines;

	function endLine(): void {
		if (line.trim() !== '') lines.push(line.trim());
		line = '';
		linePt = 0;
	}
}

/** Words with the spaces before them; words with hyphens or slashes in parts that may stand on different lines. */
function piecesOf(text: string): readonly string[] {
	const plain = text.normalize('NFC').replace(/\s+/gu, ' ').trim();
	return plain.match(/ ?[^ /–—-]*(?:[/–—-]+|(?= )|$)/gu)?.filter((piece) => piece !== '') ?? [];
}
