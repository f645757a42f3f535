import { grow, type Box, type Point } from '$core/geometry';
import type { TargetSide } from '$core/election/election';
import type { PageLayout } from '$core/layout/layout';

/** Paper shown around a contest, so that a ring around its last name has room. */
const AROUND_PT = 7;

/** A target must be at least this wide to be filled with a fingertip (WCAG 2.2, 2.5.5, AAA: 44 CSS px). */
export const FINGER_PX = 44;

/** A hair more, so that rounding by the browser never leaves it just under. */
const FILLED_PX = FINGER_PX + 0.5;

/** The whole sheet. */
export const wholePage = (page: PageLayout): Box => ({ x: 0, y: 0, width: page.widthPt, height: page.heightPt });

/** The part of the sheet that shows one contest: its column fills the width. */
export function contestView(page: PageLayout, contest: string): Box {
	const found = page.contests.find((c) => c.contest === contest);
	return found ? inside(grow(found.box, AROUND_PT), page) : wholePage(page);
}

/**
 * The part of `view` that fills `widthPx` when every target of it is at least `FINGER_PX` wide: as much of
 * the rows as fits, from the side where the targets are. The same view where they are that wide already.
 */
export function zoomed(view: Box, widthPx: number, targets: readonly Box[], side: TargetSide): Box {
	const narrowest = Math.min(...targets.map((target) => target.width));
	if (!Number.isFinite(narrowest) || widthPx <= 0) return view;
	const width = Math.min(view.width, (widthPx * narrowest) / FILLED_PX);
	return { ...view, width, x: side === 'left' ? view.x : view.x + view.width - width };
}

/** `view` moved along `around` by `dxPt`, never past its sides. */
export const slid = (view: Box, around: Box, dxPt: number): Box => ({
	...view,
	x: Math.min(Math.max(view.x + dxPt, around.x), around.x + around.width - view.width)
});

export const isSame = (a: Box, b: Box): boolean =>
	a.x === b.x && a.y === b.y && a.width === b.width && a.height === b.height;

/** From a place in the window to points on the page, for a view shown in the rectangle `on` of the window. */
export const toPage = (
	view: Box,
	on: { readonly left: number; readonly top: number; readonly width: number; readonly height: number },
	clientX: number,
	clientY: number
): Point => ({
	x: view.x + ((clientX - on.left) / on.width) * view.width,
	y: view.y + ((clientY - on.top) / on.height) * view.height
});

function inside(box: Box, page: PageLayout): Box {
	const x = Math.max(0, box.x);
	const y = Math.max(0, box.y);
	return {
		x,
		y,
		width: Math.min(page.widthPt, box.x + box.width) - x,
		height: Math.min(page.heightPt, box.y + box.height) - y
	};
}
