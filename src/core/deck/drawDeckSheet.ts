import { PT_PER_MM } from '../image';
import { NIB_MM, type Stroke, type Tool } from '../ink/stroke';
import { FONT_FAMILY } from '../layout/draw';
import type { Layout } from '../layout/layout';
import { MARGIN_PT } from '../layout/sizes';
import { INK_TOOLS } from '../page/inkTools';
import { drawSheet, type SheetOptions } from '../sheet/drawSheet';
import type { EncodeCode } from '../sheet/signs';
import type { DeckSheet } from './planDeck';

/** The label stands under the foot, where nothing is read, within what an office printer reaches. */
const LABEL = { baselinePt: 772.5, sizePt: 7 } as const;

/**
 * A sheet of a deck as an SVG document: the practice sheet, its known marks in the grey of their pen, and which sheet
 * it is. Throws a RangeError for a page that the layout has not.
 */
export function drawDeckSheet(layout: Layout, sheet: DeckSheet, encode: EncodeCode, options?: SheetOptions): string {
	const ink = sheet.strokes.map(drawStroke).join('');
	const { baselinePt, sizePt } = LABEL;
	const label = `<text x="${MARGIN_PT}" y="${baselinePt}" font-family="${FONT_FAMILY}" font-size="${sizePt}">${sheet.name}</text>`;
	const marks = `<g fill="none" stroke-linecap="round" stroke-linejoin="round">${ink}</g>`;
	return drawSheet(layout, sheet.page, encode, options).replace(/<\/svg>$/, `${marks}\n${label}\n</svg>`);
}

function drawStroke({ tool, points, widthMm }: Stroke): string {
	const corners = points.map(([x, y]) => `${short(x)} ${short(y)}`);
	// One point is a dot: a line of no length with round ends.
	const way = corners.length === 1 ? [...corners, ...corners] : corners;
	const width = (widthMm ?? NIB_MM[tool]) * PT_PER_MM;
	return `<path d="M${way.join('L')}" stroke="${greyOf(tool)}" stroke-width="${short(width)}"/>`;
}

/** What the pen leaves of the paper's light. A deck has no eraser: a printer cannot print what one leaves. */
function greyOf(tool: Tool): string {
	if (tool === 'eraser') throw new RangeError('drawDeckSheet: expected a pen, got an eraser');
	const grey = Math.round(255 * (1 - INK_TOOLS[tool].density));
	return `#${grey.toString(16).padStart(2, '0').repeat(3)}`;
}

const short = (value: number): number => Math.round(value * 1000) / 1000;
