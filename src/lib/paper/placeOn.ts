import { placeMark, type PlaceableMark } from '$core/ink/placeMark';
import type { Stroke, Tool } from '$core/ink/stroke';
import type { Layout } from '$core/layout/layout';

/** The letter that places each mark while a choice's checkbox has the focus, in the order the marks are offered. */
export const KEY_OF_MARK: Readonly<Record<PlaceableMark, string>> = {
	fill: 'f',
	check: 'c',
	cross: 'x',
	'circle-name': 'o',
	'underline-name': 'u',
	'cross-out': 'k',
	light: 'l',
	partial: 'p',
	dot: 'd',
	ring: 'r',
	'strike-name': 's',
	'join-arrow': 'j',
	'after-name': 'a',
	beside: 'b',
	'write-in': 'w',
	erase: 'e'
};

export const MARKS = Object.keys(KEY_OF_MARK) as readonly PlaceableMark[];

/**
 * The strokes of a mark at a choice, and the page they are on; undefined where the layout has no such choice or the
 * mark has no place there. Nobody fills an oval with an eraser: the pen is taken instead. `seed`: another hand's wobble.
 */
export function placeOn(
	layout: Layout,
	contest: string,
	choice: string,
	mark: PlaceableMark,
	tool: Tool,
	seed: number
): { readonly page: number; readonly strokes: readonly Stroke[] } | undefined {
	const { shape, side } = layout;
	const pen = tool === 'eraser' ? 'ballpoint' : tool;
	for (const { page, choices } of layout.pages) {
		const found = choices.find((c) => c.contest === contest && c.choice === choice);
		if (!found) continue;
		const strokes = placeMark(mark, found, { tool: pen, shape, side, seed });
		return strokes.length > 0 ? { page, strokes } : undefined;
	}
	return undefined;
}
