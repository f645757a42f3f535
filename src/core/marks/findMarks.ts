import type { Thresholds } from '../election/election';
import type { Box } from '../geometry';
import { PT_PER_PX, type GreyImage, type PixelBox } from '../image';
import type { Layout, PageLayout } from '../layout/layout';
import { classify } from './classify';
import { findComponents, type Component } from './components';
import { featuresOf } from './features';
import { groupComponents, REACH_PX } from './groupComponents';
import type { Mark, PageMarks, TargetReading } from './mark';
import { levelOf, measureTarget } from './measureTarget';
import { placeOf } from './placeOf';
import { CELL_PX, findResidual } from './residual';
import { edgesOf, meets, whereaboutsOf, type Edges } from './whereabouts';

export interface FindOptions {
	/** The election's thresholds for targets. */
	readonly thresholds: Pick<Thresholds, 'dark' | 'empty'>;
	/** Look only at this part of the page, in points: targets and marks that lie in it wholly or partly. */
	readonly window?: Box;
}

/**
 * Measures every target of a page and finds every other mark on it. `page` is the marked page as grey image
 * at 200 dpi, `print` the same page without ink, of the same size. Marks come in page order with ids "m1",
 * "m2", … A mark that lies wholly inside `window` is found the same as without it.
 *
 * Throws a RangeError for a page number the layout does not have and for images of different sizes.
 */
export function findMarks(
	page: GreyImage,
	print: GreyImage,
	layout: Layout,
	pageNumber: number,
	options: FindOptions
): PageMarks {
	const sheet = layout.pages.find((known) => known.page === pageNumber);
	if (!sheet) throw new RangeError(`findMarks: expected a page from 1 to ${layout.pages.length}, got ${pageNumber}`);
	if (page.width !== print.width || page.height !== print.height)
		throw new RangeError(
			`findMarks: expected a page of ${print.width} x ${print.height} pixels like its print, got ${page.width} x ${page.height}`
		);
	const { thresholds, window } = options;
	const wanted = window ? edgesOf(window) : { left: 0, top: 0, right: page.width, bottom: page.height };
	const residual = findResidual(page, print, partOf(wanted, page, sheet));
	const targets = sheet.choices
		.filter(({ target }) => meets(edgesOf(target), wanted, 0))
		.map(({ contest, choice, rank, target }): TargetReading => {
			const measure = measureTarget(residual, layout.shape, target);
			return {
				contest,
				choice,
				...(rank === undefined ? {} : { rank }),
				page: pageNumber,
				...measure,
				level: levelOf(measure.score, thresholds)
			};
		});
	const marks = groupComponents(findComponents(residual), sheet)
		.map((group) => markOf(group, sheet, layout))
		.filter(({ box }) => meets(edgesOf(box), wanted, 0))
		.sort((a, b) => a.box.y - b.box.y || a.box.x - b.box.x)
		.map((mark, index) => ({ ...mark, id: `m${index + 1}` }));
	return { page: pageNumber, targets, marks };
}

function markOf(group: readonly Component[], sheet: PageLayout, layout: Layout): Mark {
	const where = whereaboutsOf(group, sheet);
	const features = featuresOf(group);
	const { kind, confidence } = classify(features, where, layout.shape, layout.side);
	const inkCount = group.reduce((sum, c) => sum + c.inkCount, 0);
	const mass = group.reduce((sum, c) => sum + c.mass, 0);
	return {
		id: '',
		page: sheet.page,
		kind,
		...placeOf(kind, where, layout.side),
		box: boxOf(where.box),
		confidence,
		darkness: mass / Math.max(1, inkCount) / 255
	};
}

const boxOf = ({ left, top, right, bottom }: Edges): Box => ({
	x: left * PT_PER_PX,
	y: top * PT_PER_PX,
	width: (right - left) * PT_PER_PX,
	height: (bottom - top) * PT_PER_PX
});

/** The pixels to look at: what can belong to a mark in `wanted`, in whole cells, whose stains need one more. */
function partOf(wanted: Edges, { width, height }: GreyImage, { choices }: PageLayout): PixelBox {
	let { left, top, right, bottom } = wanted;
	for (const { target } of choices) {
		const edges = edgesOf(target);
		if (!meets(edges, wanted, 0)) continue;
		left = Math.min(left, edges.left);
		top = Math.min(top, edges.top);
		right = Math.max(right, edges.right);
		bottom = Math.max(bottom, edges.bottom);
	}
	const by = REACH_PX + 2 * CELL_PX;
	const cells = (px: number) => Math.floor(px / CELL_PX) * CELL_PX;
	const xPx = Math.max(0, cells(left - by));
	const yPx = Math.max(0, cells(top - by));
	const farX = Math.min(width, cells(right + by + CELL_PX));
	const farY = Math.min(height, cells(bottom + by + CELL_PX));
	return { xPx, yPx, widthPx: Math.max(0, farX - xPx), heightPx: Math.max(0, farY - yPx) };
}
