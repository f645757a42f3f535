/**
 * What can touch the paper. `eraser` lightens ink, never print; `dry` is a ballpoint that runs dry
 * along the stroke.
 */
export type Tool = 'ballpoint' | 'pencil' | 'felt' | 'faint' | 'dry' | 'eraser';

/** A sample of the pen's path: x and y in points on the page, and milliseconds since the stroke began. */
export type StrokePoint = readonly [x: number, y: number, tMs?: number];

/** One touch of the paper, from pen down to pen up. One point is a dot of the nib's width. */
export interface Stroke {
	readonly tool: Tool;
	readonly points: readonly StrokePoint[];
	/** Another nib than the tool's own (see NIB_MM), in millimetres. */
	readonly widthMm?: number;
}

/** What may happen to a sheet besides the pen. Boxes and lengths in points. */
export type Mishap =
	| { readonly kind: 'stain'; readonly x: number; readonly y: number; readonly radiusPt: number; readonly seed: number }
	| { readonly kind: 'smudge'; readonly x: number; readonly y: number; readonly dx: number; readonly dy: number }
	/** A crease across the whole page at this height (or this x, for a fold down the page). */
	| { readonly kind: 'fold'; readonly at: number; readonly along: 'x' | 'y' }
	/** Felt-tip from the other side of the sheet, seen through the paper; points are where it shows on this side. */
	| { readonly kind: 'bleed'; readonly strokes: readonly Stroke[] };

/** All that happened to one page, in order. */
export interface PageInk {
	/** From 1. */
	readonly page: number;
	readonly strokes: readonly Stroke[];
	readonly mishaps?: readonly Mishap[];
}

/** Nib widths in millimetres. */
export const NIB_MM: Readonly<Record<Tool, number>> = {
	ballpoint: 0.5,
	pencil: 0.5,
	felt: 1.2,
	faint: 0.5,
	dry: 0.5,
	eraser: 5
};

/** Largest coordinate of ink, either sign, in points: many pages off the page already means a faulty file. */
export const FARTHEST_PT = 10_000;
