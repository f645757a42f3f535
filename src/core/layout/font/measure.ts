import type { FontWeight } from '../layout';
import { ADVANCES, CHARACTERS, UNITS_PER_EM } from './metrics';

/** Advance in em of the box that stands for a character the font does not have. */
export const UNKNOWN_ADVANCE_EM = 0.6;

const placeOf = new Map(Array.from(CHARACTERS, (character, place) => [character, place] as const));

/** Place of `character` in the font's tables, or undefined where the font does not have it. */
export function placeInFont(character: string): number | undefined {
	return placeOf.get(character);
}

/** Advance of one character in em. */
export function advanceOf(character: string, weight: FontWeight): number {
	const place = placeOf.get(character);
	return place === undefined ? UNKNOWN_ADVANCE_EM : (ADVANCES[weight][place] ?? 0) / UNITS_PER_EM;
}

/**
 * Width of one line of text in points: the characters' advances without kerning, and `spacingPt` after
 * each of them, the last one included, as SVG's letter-spacing does. Text is expected in Unicode form NFC.
 */
export function widthOf(text: string, weight: FontWeight, sizePt: number, spacingPt: number): number {
	let width = 0;
	for (const character of text) width += advanceOf(character, weight) * sizePt + spacingPt;
	return width;
}
