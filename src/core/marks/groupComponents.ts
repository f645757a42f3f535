import { PX_PER_MM } from '../image';
import type { PageLayout } from '../layout/layout';
import type { Component } from './components';
import { edgesOf, holds, meets, type Edges } from './whereabouts';

/** Pieces nearer than this belong together, in pixels: a pen that skips, a check drawn in two strokes. */
const NEAR_PX = 6;

/** A mark in a target and one around it stay two unless they touch. */
const TOUCHING_PX = 2;

/** A piece as long as this is a mark of its own, in millimetres. */
const LARGE_MM = 8;

/** Letters of one note lie at most this far apart, in millimetres, and are so high. */
const LETTER_GAP_MM = 3.2;
const LETTER_LEAST_MM = 1;
const LETTER_MOST_MM = 11;

/** Largest distance at which two pieces can become one mark, in pixels. */
export const REACH_PX = Math.ceil(LETTER_GAP_MM * PX_PER_MM) + 2;

/** Joins the pieces of one mark: near pieces, all in one target, all on one write-in line, letters in a row. */
export function groupComponents(components: readonly Component[], page: PageLayout): Component[][] {
	const parent = components.map((_, i) => i);
	const root = (i: number): number => {
		let at = i;
		while (parent[at] !== at) at = parent[at] as number;
		return at;
	};
	const join = (a: number, b: number) => {
		const [ra, rb] = [root(a), root(b)];
		if (ra !== rb) parent[Math.max(ra, rb)] = Math.min(ra, rb);
	};
	const homes = components.map((component) => homeOf(component, page));
	for (let i = 0; i < components.length; i++)
		for (let j = i + 1; j < components.length; j++) {
			const [a, b] = [components[i] as Component, components[j] as Component];
			if (!meets(a, b, REACH_PX) || root(i) === root(j)) continue;
			const [homeA, homeB] = [homes[i], homes[j]];
			if (homeA !== undefined && homeA === homeB) join(i, j);
			else if (homeA !== homeB && (homeA?.startsWith('t') || homeB?.startsWith('t'))) {
				if (meets(a, b, TOUCHING_PX) && areNear(a, b, TOUCHING_PX)) join(i, j);
			} else if (meets(a, b, NEAR_PX) && areNear(a, b, bothLarge(a, b) ? TOUCHING_PX : NEAR_PX)) join(i, j);
			else if (homeA === undefined && homeB === undefined && areLetters(a, b)) join(i, j);
		}
	const groups = new Map<number, Component[]>();
	components.forEach((component, i) => {
		const list = groups.get(root(i));
		if (list) list.push(component);
		else groups.set(root(i), [component]);
	});
	return [...groups.values()];
}

/** The target or write-in line in which a piece mainly lies: "t0", "w3", by the choice's place on the page. */
function homeOf(component: Component, { choices }: PageLayout): string | undefined {
	const { xs, ys } = component;
	for (const [index, { target, writeIn }] of choices.entries()) {
		const inTarget = edgesOf(target);
		if (meets(inTarget, component, 2) && shareIn(inTarget, xs, ys, 2) > 0.5) return `t${index}`;
		if (!writeIn) continue;
		const onLine = edgesOf(writeIn);
		if (meets(onLine, component, 4) && shareIn(onLine, xs, ys, 4) > 0.5) return `w${index}`;
	}
	return undefined;
}

function shareIn(edges: Edges, xs: Int32Array, ys: Int32Array, by: number): number {
	const grown = {
		left: edges.left - by,
		top: edges.top - by,
		right: edges.right + by,
		bottom: edges.bottom + by
	};
	let inside = 0;
	for (let i = 0; i < xs.length; i++) if (holds(grown, xs[i] as number, ys[i] as number)) inside += 1;
	return inside / xs.length;
}

/** Whether any two pixels of two pieces are at most `by` apart, each way. */
function areNear(a: Component, b: Component, by: number): boolean {
	const left = Math.max(a.left, b.left) - by;
	const right = Math.min(a.right, b.right) + by;
	const top = Math.max(a.top, b.top) - by;
	const bottom = Math.min(a.bottom, b.bottom) + by;
	const width = right - left + 1;
	if (width <= 0 || bottom < top) return false;
	const spots = new Uint8Array(width * (bottom - top + 1));
	for (let i = 0; i < a.xs.length; i++) {
		const x = (a.xs[i] as number) - left;
		const y = (a.ys[i] as number) - top;
		if (x < 0 || y < 0 || x >= width || y > bottom - top) continue;
		for (let row = Math.max(0, y - by); row <= Math.min(bottom - top, y + by); row++)
			spots.fill(1, row * width + Math.max(0, x - by), row * width + Math.min(width, x + by + 1));
	}
	for (let i = 0; i < b.xs.length; i++) {
		const x = (b.xs[i] as number) - left;
		const y = (b.ys[i] as number) - top;
		if (x >= 0 && y >= 0 && x < width && y <= bottom - top && spots[y * width + x] === 1) return true;
	}
	return false;
}

/** Two rings around neighbouring names come close; a mark in pieces has at most one that is large both ways. */
const bothLarge = (a: Component, b: Component): boolean => isLarge(a) && isLarge(b);

const isLarge = ({ left, right, top, bottom }: Component): boolean =>
	Math.max(right - left, bottom - top) > LARGE_MM * PX_PER_MM &&
	Math.min(right - left, bottom - top) > 0.4 * LARGE_MM * PX_PER_MM;

/** Two pieces of a size to be letters, side by side on one line of writing. */
function areLetters(a: Component, b: Component): boolean {
	const [heightA, heightB] = [(a.bottom - a.top) / PX_PER_MM, (b.bottom - b.top) / PX_PER_MM];
	const most = Math.max(heightA, heightB);
	if (most < LETTER_LEAST_MM || most > LETTER_MOST_MM) return false;
	if (isLine(a) || isLine(b)) return false;
	const gap = Math.max(a.left, b.left) - Math.min(a.right, b.right);
	if (gap > Math.min(LETTER_GAP_MM, 0.9 * most) * PX_PER_MM) return false;
	const shared = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
	return shared > 0.5 * Math.min(a.bottom - a.top, b.bottom - b.top);
}

/** A flat line is a rule under something, not a letter. */
const isLine = ({ left, right, top, bottom }: Component): boolean => right - left > 5 * (bottom - top);
