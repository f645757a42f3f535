import type { Thresholds } from '../election/election';
import type { Box } from '../geometry';
import { PT_PER_PX, type GreyImage, type PixelBox } from '../image';
import type { Layout, PageLayout } from '../layout/layout';
import { classify, type Verdict } from './classify';
import { findComponents, type Component } from './components';
import { featuresOf } from './features';
import { findMishaps } from './findMishaps';
import { groupComponents, REACH_PX } from './groupComponents';
import type { Mark, MarkKind, PageMarks, TargetReading } from './mark';
import { levelOf, looksBesidePx, measureTarget } from './measureTarget';
import { placeOf } from './placeOf';
import { BLOCK_PX, findResidual } from './residual';
import { separateTones } from './separateTones';
import { splitFill } from './splitFill';
import { edgesOf, meets, whereaboutsOf, type Edges, type Whereabouts } from './whereabouts';

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
	const part = partOf(wanted, page, sheet, looksBesidePx(layout.shape));
	const residual = findResidual(page, print, part);
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
	const { mishaps, ink } = findMishaps(findComponents(residual).map(separateTones), sheet, part);
	const marks = [
		...mishaps.map((mishap) =>
			markOf(mishap, mishap.components, whereaboutsOf(mishap.components, sheet), sheet, layout)
		),
		...groupComponents(ink, sheet).flatMap((group) => drawn(group, sheet, layout))
	]
		.filter(({ box }) => meets(edgesOf(box), wanted, 0))
		.sort((a, b) => a.box.y - b.box.y || a.box.x - b.box.x)
		.map((mark, index) => ({ ...mark, id: `m${index + 1}` }));
	return { page: pageNumber, targets, marks };
}

/** Kinds that can lie over a filled target and still be a mark of their own. */
const OVER_A_FILL: ReadonlySet<MarkKind> = new Set(['strike', 'join', 'underline', 'ring']);

/** The mark that somebody drew, or two where a filled target is struck through or ringed in one piece of ink. */
function drawn(group: readonly Component[], sheet: PageLayout, layout: Layout): Mark[] {
	const split = splitFill(group, sheet);
	if (split) {
		const [fill, rest] = split;
		const where = whereaboutsOf(rest, sheet);
		const verdict = classify(featuresOf(rest), where, layout.shape, layout.side);
		if (OVER_A_FILL.has(verdict.kind))
			return [...drawn(fill, sheet, layout), markOf(verdict, rest, where, sheet, layout)];
	}
	const where = whereaboutsOf(group, sheet);
	const verdict = classify(featuresOf(group), where, layout.shape, layout.side);
	return [markOf(verdict, group, where, sheet, layout)];
}

function markOf(
	{ kind, confidence }: Verdict,
	components: readonly Component[],
	where: Whereabouts,
	sheet: PageLayout,
	layout: Layout
): Mark {
	const inkCount = components.reduce((sum, c) => sum + c.inkCount, 0);
	const mass = components.reduce((sum, c) => sum + c.mass, 0);
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

/**
 * The pixels to look at: what can belong to a mark in `wanted`, and `beside` pixels on either side of each target in it,
 * in whole blocks.
 */
function partOf(wanted: Edges, { width, height }: GreyImage, { choices }: PageLayout, beside: number): PixelBox {
	let { left, top, right, bottom } = wanted;
	for (const { target } of choices) {
		const edges = edgesOf(target);
		if (!meets(edges, wanted, 0)) continue;
		left = Math.min(left, edges.left - beside);
		top = Math.min(top, edges.top);
		right = Math.max(right, edges.right + beside);
		bottom = Math.max(bottom, edges.bottom);
	}
	const by = REACH_PX;
	const blocks = (px: number) => Math.floor(px / BLOCK_PX) * BLOCK_PX;
	const xPx = Math.max(0, blocks(left - by));
	const yPx = Math.max(0, blocks(top - by));
	const farX = Math.min(width, blocks(right + by + BLOCK_PX - 1));
	const farY = Math.min(height, blocks(bottom + by + BLOCK_PX - 1));
	return { xPx, yPx, widthPx: Math.max(0, farX - xPx), heightPx: Math.max(0, farY - yPx) };
}
