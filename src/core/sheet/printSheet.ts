import { PX_PER_PT, type GreyImage } from '../image';
import type { Layout } from '../layout/layout';
import { fillPolygon, polygonArea, printAreaInPlace } from '../page/fillPolygon';
import { PAPER_WHITE, PRINT_BLACK, printPage } from '../page/printPage';
import { sheetCodeOf, writeSheetCode } from './sheetCode';
import { signsOf, type EncodeCode, type Solid } from './signs';

/** One practice sheet without ink, as a scanner at 200 dpi sees it: the printed page, its corner marks and its code. */
export function printSheet(layout: Layout, page: number, encode: EncodeCode): GreyImage {
	const image = printPage(layout, page);
	const found = layout.pages.find((known) => known.page === page);
	if (!found) throw new RangeError(`printSheet: expected a page from 1 to ${layout.pages.length}, got ${page}`);
	printSolidsInPlace(image, signsOf(found, encode(writeSheetCode(sheetCodeOf(layout, page)))), PX_PER_PT);
	return image;
}

/** Prints solids into a page image that has `pxPerPt` pixels in a point. */
export function printSolidsInPlace(image: GreyImage, solids: readonly Solid[], pxPerPt: number): void {
	for (const solid of solids) {
		const xs = solid.filter((_, i) => i % 2 === 0).map((x) => x * pxPerPt);
		const ys = solid.filter((_, i) => i % 2 === 1).map((y) => y * pxPerPt);
		const left = Math.floor(Math.min(...xs));
		const top = Math.floor(Math.min(...ys));
		const area = polygonArea(left, top, Math.ceil(Math.max(...xs)) - left, Math.ceil(Math.max(...ys)) - top);
		fillPolygon(area, [solid], pxPerPt, 0, 0);
		printAreaInPlace(image, area, 1 - PRINT_BLACK / PAPER_WHITE);
	}
}
