import { contains, grow, type Box } from '$core/geometry';
import type { PageInk } from '$core/ink/stroke';

/** Ink shows no farther than this from the line it was drawn along: half the broadest nib and its soft edge, in points. */
const INK_REACH_PT = 8;

/** Whether all that came on top of `before` lies off `window`, so that its picture is still the same. Unsure is no. */
export function isFarFrom(window: Box, before: PageInk, now: PageInk): boolean {
	if (before.mishaps?.length || now.mishaps?.length) return false;
	if (now.strokes.length < before.strokes.length) return false;
	if (before.strokes.some((stroke, i) => stroke !== now.strokes[i])) return false;
	const near = grow(window, INK_REACH_PT);
	return now.strokes.slice(before.strokes.length).every(({ points }) => isOff(near, points));
}

/** Whether the box around the points misses the window. */
function isOff(window: Box, points: PageInk['strokes'][number]['points']): boolean {
	let [left, top, right, bottom] = [Infinity, Infinity, -Infinity, -Infinity];
	for (const [x, y] of points) {
		if (contains(window, { x, y })) return false;
		left = Math.min(left, x);
		top = Math.min(top, y);
		right = Math.max(right, x);
		bottom = Math.max(bottom, y);
	}
	return left > window.x + window.width || right < window.x || top > window.y + window.height || bottom < window.y;
}
