import { drawPage } from '../layout/draw';
import type { Layout } from '../layout/layout';
import { sheetCodeOf, writeSheetCode } from './sheetCode';
import { signsOf, type EncodeCode, type Solid } from './signs';

/** Paper that the sheet is printed on, in points. */
export const PAPERS = {
	letter: { widthPt: 612, heightPt: 792 },
	a4: { widthPt: 595.28, heightPt: 841.89 }
} as const;
export type Paper = keyof typeof PAPERS;

export interface SheetOptions {
	/** Default letter. The page is laid out for letter; other paper takes it a little smaller, in its middle. */
	readonly paper?: Paper;
	/** Black on white, for a printer without colour. */
	readonly blackAndWhite?: boolean;
}

/**
 * One practice sheet as an SVG document of its paper's size: the page as the screen shows it, our corner marks and
 * the code. Corner marks and code stay black in colour too, for a camera. Throws a RangeError for a page that is not there.
 */
export function drawSheet(
	layout: Layout,
	page: number,
	encode: EncodeCode,
	{ paper = 'letter', blackAndWhite = false }: SheetOptions = {}
): string {
	const drawn = drawPage(layout, page, { blackAndWhite });
	const found = layout.pages[page - 1];
	if (!found) throw new RangeError(`drawSheet: expected a page from 1 to ${layout.pages.length}, got ${page}`);
	const solids = signsOf(found, encode(writeSheetCode(sheetCodeOf(layout, page))));
	const { widthPt, heightPt } = PAPERS[paper];
	const scale = Math.min(widthPt / found.widthPt, heightPt / found.heightPt);
	const window = [
		(found.widthPt - widthPt / scale) / 2,
		(found.heightPt - heightPt / scale) / 2,
		widthPt / scale,
		heightPt / scale
	].map(short);
	return drawn
		.replace(/viewBox="[^"]*"/, `width="${widthPt}pt" height="${heightPt}pt" viewBox="${window.join(' ')}"`)
		.replace(/<\/svg>$/, `<path fill="#000000" d="${solids.map(pathOf).join('')}"/>\n</svg>`);
}

function pathOf(solid: Solid): string {
	const corners: string[] = [];
	for (let i = 0; i < solid.length; i += 2) corners.push(`${short(solid[i] ?? 0)} ${short(solid[i + 1] ?? 0)}`);
	return `M${corners.join('L')}Z`;
}

const short = (value: number): number => Math.round(value * 1000) / 1000;
