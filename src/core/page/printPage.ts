import { PX_PER_PT, type GreyImage } from '../image';
import { glyphOf } from '../layout/font/glyph';
import type { Layout, RuleLine, TextLine } from '../layout/layout';
import { targetOutline, type OutlineStroke } from '../layout/targetOutline';
import { fillPolygon, polygonArea, printAreaInPlace } from './fillPolygon';
import { coverageAt, strokeDepth } from './strokeDepth';
import { plainPath } from './strokePath';

/** Grey of blank paper: a scanner's white is a little below 255. Common practice, no source. */
export const PAPER_WHITE = 250;

/** Grey of solid black print. Common practice, no source. */
export const PRINT_BLACK = 25;

/** How dark each kind of text prints, as a share of solid black: what must not be taken for a mark is lighter. */
const TEXT_DENSITY: Readonly<Record<TextLine['role'], number>> = {
	title: 1,
	note: 0.9,
	heading: 1,
	instruction: 1,
	name: 1,
	detail: 0.9,
	practice: 0.8,
	footer: 0.8
};

const RULE_DENSITY: Readonly<Record<RuleLine['role'], number>> = { band: 0.8, 'write-in': 1, frame: 0.9 };

/** Room around the em box of a line for parts that hang out of it, in em. */
const ABOVE_EM = 1.2;
const BELOW_EM = 0.5;
const ASIDE_EM = 0.4;

/**
 * The printed page without ink, as a scanner at 200 dpi sees it: text from the bundled font's outlines,
 * rules, and the targets, each of which is the same to the byte. `page` from 1. Throws a RangeError for a
 * page the layout does not have.
 */
export function printPage(layout: Layout, page: number): GreyImage {
	const sheet = layout.pages.find((known) => known.page === page);
	if (!sheet) throw new RangeError(`printPage: expected a page from 1 to ${layout.pages.length}, got ${page}`);
	const width = Math.round(sheet.widthPt * PX_PER_PT);
	const height = Math.round(sheet.heightPt * PX_PER_PT);
	const image: GreyImage = { width, height, data: new Uint8Array(width * height).fill(PAPER_WHITE) };
	for (const rule of sheet.rules) printRule(image, rule);
	for (const text of sheet.texts) printText(image, text);
	for (const { target } of sheet.choices) {
		const originX = Math.round(target.x * PX_PER_PT);
		const originY = Math.round(target.y * PX_PER_PT);
		for (const outline of targetOutline(layout.shape, layout.side, target))
			printOutline(image, outline, originX, originY);
	}
	return image;
}

/** Share of the light that print of a density takes, so that full print on paper is PRINT_BLACK. */
const lightTaken = (density: number): number => density * (1 - PRINT_BLACK / PAPER_WHITE);

function printRule(image: GreyImage, { x1, y1, x2, y2, widthPt, role }: RuleLine): void {
	const length = Math.sqrt((x2 - x1) * (x2 - x1) + (y2 - y1) * (y2 - y1));
	if (length === 0) return;
	const acrossX = (-(y2 - y1) / length) * (widthPt / 2) * PX_PER_PT;
	const acrossY = ((x2 - x1) / length) * (widthPt / 2) * PX_PER_PT;
	const [fromX, fromY, toX, toY] = [x1 * PX_PER_PT, y1 * PX_PER_PT, x2 * PX_PER_PT, y2 * PX_PER_PT];
	const corners = Float64Array.of(
		fromX + acrossX,
		fromY + acrossY,
		toX + acrossX,
		toY + acrossY,
		toX - acrossX,
		toY - acrossY,
		fromX - acrossX,
		fromY - acrossY
	);
	const xs = [0, 2, 4, 6].map((i) => corners[i] ?? 0);
	const ys = [1, 3, 5, 7].map((i) => corners[i] ?? 0);
	const left = Math.floor(Math.min(...xs));
	const top = Math.floor(Math.min(...ys));
	const area = polygonArea(left, top, Math.ceil(Math.max(...xs)) - left, Math.ceil(Math.max(...ys)) - top);
	fillPolygon(area, [corners], 1, 0, 0);
	printAreaInPlace(image, area, lightTaken(RULE_DENSITY[role]));
}

function printText(image: GreyImage, { text, x, y, sizePt, weight, spacingPt, role }: TextLine): void {
	const glyphs = Array.from(text, (character) => glyphOf(character, weight));
	const em = sizePt * PX_PER_PT;
	const baseline = y * PX_PER_PT;
	const start = x * PX_PER_PT;
	const spacing = spacingPt * PX_PER_PT;
	const length = glyphs.reduce((sum, { advanceEm }) => sum + advanceEm * em + spacing, 0);
	const left = Math.floor(start - ASIDE_EM * em);
	const top = Math.floor(baseline - ABOVE_EM * em);
	const width = Math.ceil(start + length + ASIDE_EM * em) - left;
	const area = polygonArea(left, top, width, Math.ceil(baseline + BELOW_EM * em) - top);
	let pen = start;
	for (const { advanceEm, contours } of glyphs) {
		fillPolygon(area, contours, em, pen, baseline);
		pen += advanceEm * em + spacing;
	}
	printAreaInPlace(image, area, lightTaken(TEXT_DENSITY[role]));
}

/** Drawn like a stroke, from the target's own pixel origin, so that every target is the same to the byte. */
function printOutline(image: GreyImage, outline: OutlineStroke, originX: number, originY: number): void {
	const path = plainPath(outline.points, outline.closed, outline.widthPt, originX, originY);
	const window = { xPx: -originX, yPx: -originY, widthPx: image.width, heightPx: image.height };
	const depth = strokeDepth(path, window);
	if (!depth) return;
	const { left, top, width, height, depths, starts, ends } = depth;
	const taken = lightTaken(1);
	for (let row = 0; row < height; row++) {
		const end = ends[row] ?? 0;
		for (let column = starts[row] ?? 0; column < end; column++) {
			const covered = coverageAt(depths[row * width + column] ?? 0, path.softPx);
			if (covered === 0) continue;
			const pixel = (row + top + originY) * image.width + column + left + originX;
			image.data[pixel] = ((image.data[pixel] ?? 0) * (1 - taken * covered) + 0.5) | 0;
		}
	}
}
