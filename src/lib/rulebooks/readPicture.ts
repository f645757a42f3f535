import type { Election } from '$core/election/election';
import type { GreyImage } from '$core/image';
import type { Layout } from '$core/layout/layout';
import { findMarks } from '$core/marks/findMarks';
import type { PageMarks } from '$core/marks/mark';
import { numberMarks } from '$core/marks/numberMarks';
import { inkPage } from '$core/page/inkPage';
import { strokesOf, type Picture } from './pictures';

/**
 * What the reader finds on a picture: its strokes are drawn on the grey page and read from there, as any ballot is. Only
 * what was found goes on; what rulebooks make of it is decided where it is shown. `print`: the sheet without ink.
 */
export function readPicture(picture: Picture, election: Election, layout: Layout, print: GreyImage): PageMarks {
	const anchors = (layout.pages[0]?.choices ?? []).map(({ target }) => target);
	const image = inkPage(print, { page: 1, strokes: strokesOf(picture, layout) }, anchors);
	const { thresholds } = election;
	const [found] = numberMarks([findMarks(image, print, layout, 1, { thresholds })]);
	if (!found) throw new RangeError(`readPicture: expected one page of "${picture.id}", found none`);
	return found;
}
