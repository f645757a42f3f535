import { county } from '$core/election/demo';
import type { TargetShape, TargetSide, TargetStyle } from '$core/election/election';
import { grow } from '$core/geometry';
import { PT_PER_MM, PX_PER_PT } from '$core/image';
import type { Mishap, PageInk, Stroke, StrokePoint } from '$core/ink/stroke';
import type { ChoiceLayout } from '$core/layout/layout';
import { layOut } from '$core/layout/layOutBallot';
import { findMarks } from '$core/marks/findMarks';
import type { PageMarks, TargetReading } from '$core/marks/mark';
import { inkPage, inkPageInPlace } from '$core/page/inkPage';
import { printPage } from '$core/page/printPage';
import en from '$locales/en.json';

/** Sizes of published and measured targets, in millimetres; the circle of 3.53 mm is NIST's own 10 pt prototype. */
export const SIZES: readonly (readonly [name: string, shape: TargetShape, widthMm: number, heightMm: number])[] = [
	['a circle of 3.0 mm', 'oval', 3, 3],
	['a circle of 3.53 mm', 'oval', 3.53, 3.53],
	['an oval of 4.83 x 3.18 mm', 'oval', 4.83, 3.18],
	['an oval of 6.35 x 3.18 mm', 'oval', 6.35, 3.18],
	['an oval of 6.35 x 4.06 mm', 'oval', 6.35, 4.06],
	['an oval of 7.62 x 4.06 mm', 'oval', 7.62, 4.06],
	['a box of 4 x 4 mm', 'box', 4, 4],
	['a box of 6.35 x 3.18 mm', 'box', 6.35, 3.18],
	['the gap of an arrow', 'arrow', 6.35, 3.18]
];

export const SIDES: readonly TargetSide[] = ['left', 'right'];

export const mm = (value: number): number => value * PT_PER_MM;

export const styleOf = (shape: TargetShape, side: TargetSide, widthMm: number, heightMm: number): TargetStyle => ({
	shape,
	side,
	widthPt: mm(widthMm),
	heightPt: mm(heightMm)
});

/** One target of a sheet and the page it is printed on. */
export interface Place {
	readonly page: number;
	readonly choice: ChoiceLayout;
}

/** What is drawn on a page and what happened to it. */
export type Ink = Omit<PageInk, 'page'>;

/** Ink is drawn farther out still, in points. */
const DRAW_PT = 42;

type Four = [number, number, number, number];

/** A sheet of the demo county with targets of one style, all its targets, and ways to read ink on it. */
export function sheetOf(target: TargetStyle) {
	const layout = layOut({ ...county, target }, county.styles[2]!.id, { en: en.layout }, ['en']);
	const prints = layout.pages.map(({ page }) => printPage(layout, page));
	// A copy of each page to draw on, clean again after every reading: a new one each time costs more than the reading.
	const images = prints.map((print) => ({ ...print, data: print.data.slice() }));
	const places = layout.pages.flatMap(({ page, choices }) => choices.map((choice): Place => ({ page, choice })));
	const anchorsOf = (page: number) => layout.pages[page - 1]!.choices.map((choice) => choice.target);
	const { thresholds } = county;

	/** All that is found on one page. */
	const read = (page: number, ink: Ink, seed = 0): PageMarks => {
		const print = prints[page - 1]!;
		const image = inkPage(print, { page, ...ink }, anchorsOf(page), undefined, { seed });
		return findMarks(image, print, layout, page, { thresholds });
	};

	/** One target's reading, of a page that has ink nowhere else; the rest of the page is neither drawn nor looked at. */
	const readTarget = ({ page, choice }: Place, ink: Ink, seed = 0): TargetReading => {
		const print = prints[page - 1]!;
		const { x, y, width, height } = grow(choice.target, DRAW_PT);
		const [xPx, yPx, widthPx, heightPx] = [x, y, width, height].map((pt) => Math.round(pt * PX_PER_PT)) as Four;
		const image = images[page - 1]!;
		inkPageInPlace(image, print, { page, ...ink }, anchorsOf(page), { xPx, yPx, widthPx, heightPx }, { seed });
		const found = findMarks(image, print, layout, page, { thresholds, window: choice.target });
		const [from, to] = [Math.max(0, yPx) * print.width, (yPx + heightPx) * print.width];
		image.data.set(print.data.subarray(from, to), from);
		return readingOf(choice, found);
	};

	return { layout, places, read, readTarget };
}

export type Sheet = ReturnType<typeof sheetOf>;

export const readingOf = ({ contest, choice, rank }: ChoiceLayout, { targets }: PageMarks): TargetReading =>
	targets.find((one) => one.contest === contest && one.choice === choice && one.rank === rank)!;

/** The same strokes with every point moved. */
export const moved = (
	strokes: readonly Stroke[],
	move: (x: number, y: number) => readonly [x: number, y: number]
): Stroke[] => strokes.map((stroke) => ({ ...stroke, points: stroke.points.map(([x, y]): StrokePoint => move(x, y)) }));

/** A crease through a target, at this share of its height (or of its width, for one down the page). */
export const creaseThrough = ({ choice: { target } }: Place, along: 'x' | 'y', share: number): Mishap => ({
	kind: 'fold',
	along,
	at: along === 'x' ? target.y + share * target.height : target.x + share * target.width
});
