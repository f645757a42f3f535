import type { Point } from '$core/geometry';
import type { GreyImage } from '$core/image';
import { lightest } from '$core/photo/blur';
import { findCode } from '$core/photo/findCode';
import { findFocus } from '$core/photo/focus';
import { findSigns } from '$core/photo/findSigns';
import type { DecodeCode } from '$core/photo/foundCode';
import { greyOver } from '$core/photo/greyOver';
import { project } from '$core/photo/homography';
import { flatField, rectify } from '$core/photo/pageMap';
import type { PhotoSheet } from '$core/photo/flattenPhoto';
import { pyramidOf } from '$core/photo/shrink';
import { dpiAt, slantAt } from '$core/photo/viewAt';
import { parseSheetCode, type SheetCode } from '$core/sheet/sheetCode';
import { CODE } from '$core/sheet/signs';

/**
 * What the camera's picture needs before a photo is worth taking, the most pressing thing alone. A closed list: the
 * section `paper.camera.guide` of the locale files has words for each.
 */
export const HINTS = ['dark', 'none', 'other', 'far', 'corner', 'steep', 'blurred', 'shadow', 'ready'] as const;
export type Hint = (typeof HINTS)[number];

export interface Guide {
	readonly hint: Hint;
	/** Corners of the sheet in the frame as shares of its width and height, clockwise from the top left. */
	readonly sheet?: readonly Point[];
}

export interface GuideContext {
	readonly sheetOf: (code: SheetCode) => PhotoSheet | undefined;
	readonly decode: DecodeCode;
	/** Pixels of the photo that will be taken to one of the frame, along a side. */
	readonly finer: number;
}

/** The brightest parts of a picture: this share of it is darker. */
const BRIGHT_SHARE = 0.9;
/** Nothing in a picture this dark can be told apart. */
const LEAST_LIGHT = 45;
/** Where nothing is found in a picture without anything brighter, it is the light that is missing. */
const DIM = 110;
/** Grey of the paper where it is lightest. The photo needs 45 for most of it. */
const LEAST_PAPER = 70;
/** A little more than the photo needs, so that a photo taken at "ready" is read. Found by trial. */
const LEAST_DPI = 130;
const MOST_SLANT = 42;
/** Blur in pixels of the 200 dpi page. A sharp frame of 60 dpi has 1.4, by its coarseness alone; found by trial. */
const MOST_BLUR_PX = 1.9;
/** Height of the head of the page in which blur is looked for: text and code are there on every page. */
const HEAD_PX = 240;
/** Light of the paper on one side of a shadow's edge as a share of the other's. Even light falls off far more slowly. */
const LEAST_STEP = 0.55;

/** Side of the squares in which light is looked at, in pixels of a 25 dpi page. */
const LIGHT_PX = 20;
const LIGHT_STRIDE = 8;

const LEAST_LEVEL_PX = 100;

/** Looks at one frame of the camera. Quick rather than thorough: the photo itself is judged by `flattenPhoto`. */
export function guideOf(frame: GreyImage, { sheetOf, decode, finer }: GuideContext): Guide {
	const brightest = greyOver(frame, BRIGHT_SHARE);
	if (brightest < LEAST_LIGHT) return { hint: 'dark' };
	const found = findCode(frame, decode);
	if (!found) return { hint: brightest < DIM ? 'dark' : 'none' };
	if (found.text === undefined) {
		const [a, b] = found.corners as [Point, Point];
		const dpi = (Math.hypot(b.x - a.x, b.y - a.y) / CODE.sizePt) * 72;
		return { hint: dpi * finer < LEAST_DPI || dpi < 70 ? 'far' : 'blurred' };
	}
	const code = parseSheetCode(found.text);
	const sheet = code && sheetOf(code);
	if (!code || sheet?.version !== code.version) return { hint: 'other' };
	const [print] = sheet.prints;
	if (!print) throw new RangeError('guideOf: expected the print of the sheet, got none');
	const levels = pyramidOf(frame, LEAST_LEVEL_PX);
	const signs = findSigns(levels, sheet.prints, found.corners);
	if (!('signs' in signs)) return { hint: 'corner' };
	const { view } = signs.signs;
	const corners = [
		[0, 0],
		[print.width, 0],
		[print.width, print.height],
		[0, print.height]
	] as const;
	const at = corners.map(([x, y]) => project(view, x, y));
	const outline = at.map(({ x, y }) => ({ x: x / frame.width, y: y / frame.height }));
	const dpi = Math.min(...corners.map(([x, y]) => dpiAt(view, x, y)));
	if (dpi * finer < LEAST_DPI) return { hint: 'far', sheet: outline };
	if (slantAt(view, print.width / 2, print.height / 2) > MOST_SLANT) return { hint: 'steep', sheet: outline };
	const map = { widthPx: print.width, heightPx: print.height, view, field: flatField(print.width, print.height) };
	const light = paperLight(rectify(levels, map, LIGHT_STRIDE));
	if (light.most < LEAST_PAPER) return { hint: 'dark', sheet: outline };
	if (light.step < LEAST_STEP) return { hint: 'shadow', sheet: outline };
	const head = { xPx: 0, yPx: 0, widthPx: print.width, heightPx: HEAD_PX };
	const { sigmaPx } = findFocus(rectify(levels, map, 1, head), headOf(print), lightest(print));
	return { hint: sigmaPx > MOST_BLUR_PX ? 'blurred' : 'ready', sheet: outline };
}

const heads = new WeakMap<GreyImage, GreyImage>();

/** The head of a print. Kept for each print, so that what is worked out for it serves all frames. */
function headOf(print: GreyImage): GreyImage {
	const known = heads.get(print);
	if (known) return known;
	const { width, data } = print;
	const head = { width, height: HEAD_PX, data: data.subarray(0, HEAD_PX * width) };
	heads.set(print, head);
	return head;
}

/** Grey of the paper where it is lightest, and how dark a square is beside one that is two away, where that is darkest. */
function paperLight({ width, height, data }: GreyImage): { readonly most: number; readonly step: number } {
	const columns = Math.floor(width / LIGHT_PX);
	const rows = Math.floor(height / LIGHT_PX);
	const papers = Array.from({ length: columns * rows }, (_, i) => {
		const [left, top] = [(i % columns) * LIGHT_PX, Math.floor(i / columns) * LIGHT_PX];
		const greys: number[] = [];
		for (let y = top; y < top + LIGHT_PX; y += 2)
			for (let x = left; x < left + LIGHT_PX; x += 2) greys.push(data[y * width + x] as number);
		// The lightest pixels of a square are paper.
		return greys.sort((a, b) => a - b)[Math.floor(0.9 * greys.length)] as number;
	});
	let step = 1;
	papers.forEach((paper, i) => {
		const beside = i % columns < columns - 2 ? papers[i + 2] : undefined;
		for (const other of [beside, papers[i + 2 * columns]])
			if (other !== undefined) step = Math.min(step, paper / Math.max(1, other), other / Math.max(1, paper));
	});
	return { most: Math.max(...papers), step };
}
