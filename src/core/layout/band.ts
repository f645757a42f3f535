import { widthOf } from './font/measure';
import type { RuleLine, TextLine } from './layout';
import { BAND } from './sizes';
import type { PrintedWords } from './words';

/**
 * The rule above a contest: two rules with PRACTICE and NOT A BALLOT between them in every language of
 * the sheet, as often as fits, spaced out to both ends.
 */
export function practiceBand(
	words: PrintedWords,
	languages: readonly string[],
	x: number,
	y: number,
	widthPt: number
): { texts: readonly TextLine[]; rules: readonly RuleLine[]; bottom: number } {
	const bottom = y + BAND.heightPt;
	const rule = (at: number, ruleWidth: number): RuleLine => ({
		x1: x,
		y1: at,
		x2: x + widthPt,
		y2: at,
		widthPt: ruleWidth,
		role: 'band'
	});
	return {
		texts: bandWords(words, languages, x, y + BAND.heightPt / 2 + 0.36 * BAND.textPt, widthPt),
		rules: [rule(y + BAND.topRulePt / 2, BAND.topRulePt), rule(bottom - BAND.bottomRulePt / 2, BAND.bottomRulePt)],
		bottom
	};
}

/** The band's words on one line: as many as leave the letter spacing closest to the wished one. */
function bandWords(
	words: PrintedWords,
	languages: readonly string[],
	x: number,
	baseline: number,
	widthPt: number
): readonly TextLine[] {
	const cycle = languages.flatMap((language) => {
		const { practice = 'PRACTICE', notABallot = 'NOT A BALLOT' } = words[language] ?? {};
		return [
			{ language, text: practice.normalize('NFC') },
			{ language, text: notABallot.normalize('NFC') }
		];
	});
	let best: { tokens: typeof cycle; spacingPt: number } | undefined;
	for (let count = 1; ; count++) {
		const tokens = Array.from({ length: count }, (_, i) => {
			const { language, text } = cycle[i % cycle.length] ?? { language: '', text: '' };
			return { language, text: i === count - 1 ? text : `${text} · ` };
		});
		const all = tokens.map(({ text }) => text).join('');
		const spacingPt = (widthPt - widthOf(all, 'bold', BAND.textPt, 0)) / (Array.from(all).length - 1);
		if (best && spacingPt <= 0.3) break;
		const off = Math.abs(spacingPt - BAND.spacingPt);
		if (!best || off < Math.abs(best.spacingPt - BAND.spacingPt)) best = { tokens, spacingPt };
		if (spacingPt <= 0.3) break;
	}
	let at = x;
	return best.tokens.map(({ text, language }) => {
		const line: TextLine = {
			text: text.trimEnd(),
			x: at,
			y: baseline,
			sizePt: BAND.textPt,
			weight: 'bold',
			spacingPt: best.spacingPt,
			language,
			role: 'practice'
		};
		at += widthOf(text, 'bold', BAND.textPt, best.spacingPt);
		return line;
	});
}
