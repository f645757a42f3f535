import type { Stroke } from '$core/ink/stroke';

/** A mark that was placed by keys or buttons, so that the sheet can show it being drawn. */
export interface Placed {
	/** Counts up, so that the same mark placed twice is two. */
	readonly number: number;
	readonly page: number;
	readonly strokes: readonly Stroke[];
}
