import type { Box } from '../geometry';
import { PX_PER_PT, type GreyImage, type PixelBox } from '../image';
import { FARTHEST_PT, type Mishap, type PageInk, type Stroke } from '../ink/stroke';
import { drawBleed } from './drawBleed';
import { drawMishap, sourceOf } from './drawMishap';
import { drawStroke } from './drawStroke';
import { inkLayers, layOverPrintInPlace } from './inkLayers';
import { reachPt } from './strokePath';

/** `seed` re-seeds the texture of all ink: another sheet, marked the same way. Default 0. */
export interface InkOptions {
	readonly seed?: number;
}

/**
 * A printed page with ink on it, as a scanner at 200 dpi would see it. Ink only darkens; an eraser
 * lightens the ink drawn before it, never the print. Mishaps come after all strokes, so ink lies under them.
 *
 * `anchors`: the page's targets in points. Grain is counted from the target nearest to a stroke, so the
 * same mark in any target is the same to the byte (VVSG 2.0 1.1.6-J).
 * `window`: only this part gets ink; it is the same to the byte as that part of the whole page. Strokes
 * partly off the page are cut off. Throws a RangeError on coordinates that are no numbers or absurdly far out.
 */
export function inkPage(
	print: GreyImage,
	ink: PageInk,
	anchors: readonly Box[],
	window?: PixelBox,
	options: InkOptions = {}
): GreyImage {
	const page = { width: print.width, height: print.height, data: print.data.slice() };
	inkPageInPlace(page, print, ink, anchors, window, options);
	return page;
}

/** Draws a window of `page` anew from the print and all the ink; pixels outside the window stay as they are. */
export function inkPageInPlace(
	page: GreyImage,
	print: GreyImage,
	ink: PageInk,
	anchors: readonly Box[],
	window: PixelBox = { xPx: 0, yPx: 0, widthPx: print.width, heightPx: print.height },
	{ seed = 0 }: InkOptions = {}
): void {
	if (page.width !== print.width || page.height !== print.height)
		throw new RangeError(
			`inkPageInPlace: expected a page of ${print.width} x ${print.height} pixels like its print, got ${page.width} x ${page.height}`
		);
	const clipped = clip(window, print);
	const mishaps = ink.mishaps ?? [];
	const layers = inkLayers(mishaps.reduce((area, mishap) => withSource(area, mishap, clipped, print), clipped));
	const draw = (stroke: Stroke, how: typeof drawStroke) => {
		const bounds = boundsOf(stroke);
		if (bounds && reaches(bounds, layers.window)) how(layers, stroke, ...originOf(bounds, anchors), seed);
	};
	for (const stroke of ink.strokes) draw(stroke, drawStroke);
	for (const mishap of mishaps) {
		if (mishap.kind === 'bleed') for (const stroke of mishap.strokes) draw(stroke, drawBleed);
		else drawMishap(layers, mishap, seed);
	}
	layOverPrintInPlace(page, print, layers, clipped);
}

/** `area` with the ink that a mishap moves into the window, so that a window gets the same smudge as the whole page. */
function withSource(area: PixelBox, mishap: Mishap, window: PixelBox, page: GreyImage): PixelBox {
	const source = sourceOf(mishap, window);
	if (!source) return area;
	const xPx = Math.min(area.xPx, source.xPx);
	const yPx = Math.min(area.yPx, source.yPx);
	const widthPx = Math.max(area.xPx + area.widthPx, source.xPx + source.widthPx) - xPx;
	const heightPx = Math.max(area.yPx + area.heightPx, source.yPx + source.heightPx) - yPx;
	return clip({ xPx, yPx, widthPx, heightPx }, page);
}

/** The part of a window that lies on the page, in whole pixels. */
function clip({ xPx, yPx, widthPx, heightPx }: PixelBox, { width, height }: GreyImage): PixelBox {
	const left = Math.max(0, Math.floor(xPx));
	const top = Math.max(0, Math.floor(yPx));
	const right = Math.min(width, Math.ceil(xPx + widthPx));
	const bottom = Math.min(height, Math.ceil(yPx + heightPx));
	return { xPx: left, yPx: top, widthPx: Math.max(0, right - left), heightPx: Math.max(0, bottom - top) };
}

/** The box of all a stroke can touch, in points; undefined where it has no points. */
function boundsOf(stroke: Stroke): Box | undefined {
	if (stroke.points.length === 0) return undefined;
	let left = Infinity;
	let top = Infinity;
	let right = -Infinity;
	let bottom = -Infinity;
	for (const [x, y] of stroke.points) {
		if (!(Math.abs(x) <= FARTHEST_PT && Math.abs(y) <= FARTHEST_PT))
			throw new RangeError(
				`inkPage: expected coordinates from -${FARTHEST_PT} to ${FARTHEST_PT} points, got (${x}, ${y}); run checkInk first`
			);
		if (x < left) left = x;
		if (x > right) right = x;
		if (y < top) top = y;
		if (y > bottom) bottom = y;
	}
	const reach = reachPt(stroke);
	return { x: left - reach, y: top - reach, width: right - left + 2 * reach, height: bottom - top + 2 * reach };
}

function reaches({ x, y, width, height }: Box, { xPx, yPx, widthPx, heightPx }: PixelBox): boolean {
	return (
		x * PX_PER_PT < xPx + widthPx &&
		(x + width) * PX_PER_PT > xPx &&
		y * PX_PER_PT < yPx + heightPx &&
		(y + height) * PX_PER_PT > yPx
	);
}

/** Pixel origin of the anchor nearest to the middle of a stroke; the page's own origin where there is none. */
function originOf(bounds: Box, anchors: readonly Box[]): readonly [number, number] {
	const x = bounds.x + bounds.width / 2;
	const y = bounds.y + bounds.height / 2;
	let nearest: Box | undefined;
	let least = Infinity;
	for (const anchor of anchors) {
		const dx = anchor.x + anchor.width / 2 - x;
		const dy = anchor.y + anchor.height / 2 - y;
		const far = dx * dx + dy * dy;
		// A hair's breadth keeps rounding from deciding between two anchors just as far away.
		if (far < least - 1e-6) {
			least = far;
			nearest = anchor;
		}
	}
	return nearest ? [Math.round(nearest.x * PX_PER_PT), Math.round(nearest.y * PX_PER_PT)] : [0, 0];
}
