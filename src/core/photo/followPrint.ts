import type { Point } from '../geometry';
import { PX_PER_PT, type GreyImage } from '../image';
import { findBlock } from './correlate';
import { homographyOf, project, type Homography } from './homography';
import { flatField, rectify } from './pageMap';

/** The print is followed at 50 dpi: a quarter of the page image. */
const LEVEL = 2;
const STRIDE = 2 ** LEVEL;

/** Blocks that are looked for, how far apart they stand along a band, and how far they are looked for, in pixels of that. */
const SIDE_PX = 24;
const ACROSS_PX = 20;
const REACH_PX = 14;
const LEAST_VARIANCE = 150;
const LEAST_LIKENESS = 0.62;

/** Height of a band, in points; how far off, in points, what was found still has half a say, and from where on it starts. */
const BAND_PT = 36;
const HALF_PT = 110;
const FIRST_PT = 50;

/** A block further from the middle of its band's shifts than this, in pixels, is another block that looks alike. */
const MOST_OFF_PX = 6;

/** Places of the page and where they are in the photo. */
export interface Pairs {
	readonly from: readonly Point[];
	readonly to: readonly Point[];
}

/**
 * Follows the print down a page from what is known of its top, band by band, each expected where those above point to:
 * curled, folded or seen by whatever lens, paper goes on smoothly. Takes and gives pixels of the 200 dpi page.
 */
export function followPrint(levels: readonly GreyImage[], prints: readonly GreyImage[], top: Pairs): Pairs {
	const [whole] = prints as readonly [GreyImage];
	const print = prints[LEVEL];
	if (!print) throw new RangeError(`followPrint: expected the print at level ${LEVEL}, got ${prints.length} levels`);
	const from = [...top.from];
	const to = [...top.to];
	const high = Math.round((BAND_PT * PX_PER_PT) / STRIDE);
	for (let y = Math.round((FIRST_PT * PX_PER_PT) / STRIDE); y + SIDE_PX <= print.height; y += high) {
		const view = viewNear({ from, to }, (y + SIDE_PX / 2) * STRIDE);
		if (!view) break;
		const part = {
			xPx: -REACH_PX,
			yPx: y - REACH_PX,
			widthPx: print.width + 2 * REACH_PX,
			heightPx: SIDE_PX + 2 * REACH_PX
		};
		const map = { widthPx: whole.width, heightPx: whole.height, view, field: flatField(whole.width, whole.height) };
		const band = rectify(levels, map, STRIDE, part);
		const found: { readonly x: number; readonly dx: number; readonly dy: number }[] = [];
		for (let x = 0; x + SIDE_PX <= print.width; x += ACROSS_PX) {
			const match = findBlock(print, band, x, y, SIDE_PX, REACH_PX, REACH_PX - y, REACH_PX, LEAST_VARIANCE, 'widely');
			if (!match || match.likeness < LEAST_LIKENESS || Math.min(match.bendX, match.bendY) <= 0) continue;
			found.push({ x, dx: match.dx - REACH_PX, dy: match.dy + y - REACH_PX });
		}
		const [usualX, usualY] = [middleOf(found.map(({ dx }) => dx)), middleOf(found.map(({ dy }) => dy))];
		for (const { x, dx, dy } of found) {
			if (Math.hypot(dx - usualX, dy - usualY) > MOST_OFF_PX) continue;
			const place = { x: (x + SIDE_PX / 2) * STRIDE, y: (y + SIDE_PX / 2) * STRIDE };
			from.push(place);
			to.push(project(view, place.x + dx * STRIDE, place.y + dy * STRIDE));
		}
	}
	return { from, to };
}

/** The view as those places say that are at about this height of the page. */
export function viewNear({ from, to }: Pairs, yPx: number): Homography | undefined {
	const weights = from.map(({ y }) => 0.5 ** (Math.abs(y - yPx) / (HALF_PT * PX_PER_PT)));
	return homographyOf(from, to, weights);
}

const middleOf = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1] ?? 0;
