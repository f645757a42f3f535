import { widthOf } from './font/measure';
import type { RuleLine, TextLine } from './layout';
import type { Sheet } from './sheet';
import { CAP_MIDDLE } from './sizes';

/** The rule above a contest with its top at `top`. */
export type Band = (top: number) => {
	readonly texts: readonly TextLine[];
	readonly rules: readonly RuleLine[];
	readonly bottom: number;
};

/**
 * The rule above every contest of a column: two rules with PRACTICE and NOT A BALLOT between them in
 * every language of the sheet, as often as fits, spaced out to both ends.
 */
export function practiceBand(sheet: Sheet, x: number, widthPt: number): Band {
	const { band } = sheet.sizes;
	const line = bandWords(sheet, x, widthPt);
	return (top) => {
		const bottom = top + band.heightPt;
		const rule = (y: number, ruleWidth: number): RuleLine => ({
			x1: x,
			y1: y,
			x2: x + widthPt,
			y2: y,
			widthPt: ruleWidth,
			role: 'band'
		});
		return {
			texts: line.map((text) => ({ ...text, y: top + band.heightPt / 2 + CAP_MIDDLE * band.textPt })),
			rules: [rule(top + band.topRulePt / 2, band.topRulePt), rule(bottom - band.bottomRulePt / 2, band.bottomRulePt)],
			bottom
		};
	};
}

/** The band's words on a line at y 0: as many as leave the letter spacing closest to the wished one. */
function bandWords({ words, languages, sizes: { band } }: Sheet, x: number, widthPt: number): readonly TextLine[] {
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
		const spacingPt = (widthPt - widthOf(all, 'bold', band.textPt, 0)) / (Array.from(all).length - 1);
		if (best && spacingPt <= 0.3) break;
		const off = Math.abs(spacingPt - band.spacingPt);
		if (!best || off < Math.abs(best.spacingPt - band.spacingPt)) best = { tokens, spacingPt };
		if (spacingPt <= 0.3) break;
	}
	let at = x;
	return best.tokens.map(({ text, language }) => {
		const line: TextLine = {
			text: text.trimEnd(),
			x: at,
			y: 0,
			sizePt: band.textPt,
			weight: 'bold',
			spacingPt: best.spacingPt,
			language,
			role: 'practice'
		};
		at += widthOf(text, 'bold', band.textPt, best.spacingPt);
		return line;
	});
}
