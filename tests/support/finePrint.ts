import { PX_PER_PT, type GreyImage } from '../../src/core/image';
import type { Layout, PageLayout } from '../../src/core/layout/layout';
import { targetOutline } from '../../src/core/layout/targetOutline';
import { printPage } from '../../src/core/page/printPage';
import { printSolidsInPlace } from '../../src/core/sheet/printSheet';
import { sheetCodeOf, writeSheetCode } from '../../src/core/sheet/sheetCode';
import { signsOf, type EncodeCode, type Solid } from '../../src/core/sheet/signs';

/** The fine print has this many times the pixels of the page image each way: 400 dpi. */
export const FINER = 2;

/** A practice sheet rendered at 400 dpi, as a printer puts it on paper: finer than any photo of it. */
export function finePrint(layout: Layout, page: number, encode: EncodeCode): GreyImage {
	const found = layout.pages.find((known) => known.page === page);
	if (!found) throw new RangeError(`finePrint: expected a page from 1 to ${layout.pages.length}, got ${page}`);
	const image = printPage({ ...layout, pages: [enlarged(found)] }, page);
	const outlines = found.choices.flatMap(({ target }) =>
		targetOutline(layout.shape, layout.side, target).flatMap(({ points, closed, widthPt }) =>
			closed ? [ringOf(points, widthPt)] : barsOf(points, widthPt)
		)
	);
	const code = signsOf(found, encode(writeSheetCode(sheetCodeOf(layout, page))));
	printSolidsInPlace(image, [...outlines, ...code], PX_PER_PT * FINER);
	return image;
}

/** Texts and rules twice as large; targets are drawn apart, because their line has a fixed width. */
function enlarged({ page, widthPt, heightPt, texts, rules }: PageLayout): PageLayout {
	return {
		page,
		widthPt: widthPt * FINER,
		heightPt: heightPt * FINER,
		foldsPt: [],
		contests: [],
		choices: [],
		texts: texts.map((line) => ({
			...line,
			x: line.x * FINER,
			y: line.y * FINER,
			sizePt: line.sizePt * FINER,
			spacingPt: line.spacingPt * FINER
		})),
		rules: rules.map((rule) => ({
			...rule,
			x1: rule.x1 * FINER,
			y1: rule.y1 * FINER,
			x2: rule.x2 * FINER,
			y2: rule.y2 * FINER,
			widthPt: rule.widthPt * FINER
		}))
	};
}

/** The line along a closed outline as one polygon: its outer edge one way round, its inner edge the other. */
function ringOf(points: Float64Array, widthPt: number): Solid {
	const count = points.length / 2;
	const edge = (by: number) =>
		Array.from({ length: count + 1 }, (_, i) => {
			const at = (k: number) => [points[2 * ((k + count) % count)]!, points[2 * ((k + count) % count) + 1]!] as const;
			const [[x0, y0], [x, y], [x1, y1]] = [at(i - 1), at(i), at(i + 1)];
			const [ax, ay] = normal(x - x0, y - y0);
			const [bx, by2] = normal(x1 - x, y1 - y);
			// Mitred corners: an oval's are too flat to show, a box's meet at a right angle.
			const along = 1 + ax * bx + ay * by2;
			return [x + (by * (ax + bx)) / along, y + (by * (ay + by2)) / along];
		});
	return Float64Array.from([...edge(widthPt / 2), ...edge(-widthPt / 2).reverse()].flat());
}

function barsOf(points: Float64Array, widthPt: number): Solid[] {
	const bars: Solid[] = [];
	for (let i = 0; i + 3 < points.length; i += 2) {
		const [x0, y0, x1, y1] = [points[i]!, points[i + 1]!, points[i + 2]!, points[i + 3]!];
		const [nx, ny] = normal(x1 - x0, y1 - y0).map((part) => (part * widthPt) / 2) as [number, number];
		bars.push(Float64Array.of(x0 + nx, y0 + ny, x1 + nx, y1 + ny, x1 - nx, y1 - ny, x0 - nx, y0 - ny));
	}
	return bars;
}

function normal(dx: number, dy: number): readonly [number, number] {
	const length = Math.hypot(dx, dy) || 1;
	return [dy / length, -dx / length];
}

/**
 * A fine print with the ink of a flat page on it. `flat` and `print`: the page at 200 dpi with and without ink. Each pixel
 * of ink covers its own square of the fine print, so that nothing blurs the ink before the camera does.
 */
export function withInk(fine: GreyImage, flat: GreyImage, print: GreyImage): GreyImage {
	const data = fine.data.slice();
	for (let y = 0; y < fine.height; y++)
		for (let x = 0; x < fine.width; x++) {
			const from = Math.floor(y / FINER) * flat.width + Math.floor(x / FINER);
			const [inked, bare] = [flat.data[from]!, print.data[from]!];
			if (inked < bare) data[y * fine.width + x] = Math.round((data[y * fine.width + x]! * inked) / bare);
		}
	return { width: fine.width, height: fine.height, data };
}
