import { PX_PER_MM } from '../image';
import type { PageLayout } from '../layout/layout';
import { gatherComponent, type Component } from './components';
import { edgesOf, holds, meets, type Edges } from './whereabouts';

/** A target is filled when this share of its outer box is ink: an oval's whole inside is two thirds of its box. */
const FILLED_SHARE = 0.5;

/** Ink belongs to the fill up to this far outside the target, in pixels. */
const MARGIN_PX = 5;

/** What reaches at least so far beyond the target is a mark of its own, in millimetres. */
const BEYOND_MM = 2.5;

/**
 * A filled target and what else touches it (a line struck through, a ring around) taken apart: the fill
 * first. Undefined where the target is not filled or nothing reaches far beyond it.
 */
export function splitFill(
	group: readonly Component[],
	{ choices }: PageLayout
): readonly [fill: readonly Component[], rest: readonly Component[]] | undefined {
	for (const { target } of choices) {
		const edges = edgesOf(target);
		if (!group.some((component) => meets(component, edges, 0))) continue;
		const near = grown(edges, MARGIN_PX);
		const far = grown(edges, BEYOND_MM * PX_PER_MM);
		if (group.every((c) => c.left >= far.left && c.top >= far.top && c.right <= far.right && c.bottom <= far.bottom))
			continue;
		let inside = 0;
		for (const { xs, ys } of group)
			for (let i = 0; i < xs.length; i++) if (holds(edges, xs[i] as number, ys[i] as number)) inside += 1;
		if (inside < FILLED_SHARE * (edges.right - edges.left) * (edges.bottom - edges.top)) continue;
		const fill = group.flatMap((component) => part(component, near, true));
		const rest = group.flatMap((component) => part(component, near, false));
		if (fill.length > 0 && rest.length > 0) return [fill, rest];
	}
	return undefined;
}

const grown = ({ left, top, right, bottom }: Edges, by: number): Edges => ({
	left: left - by,
	top: top - by,
	right: right + by,
	bottom: bottom + by
});

/** The pixels of a component inside a box, or outside it; none or one component. */
function part({ xs, ys, darks }: Component, box: Edges, inside: boolean): Component[] {
	const own: number[] = [];
	let ink = 0;
	for (let i = 0; i < xs.length; i++) {
		if (holds(box, xs[i] as number, ys[i] as number) !== inside) continue;
		own.push(i);
		if (darks[i] !== 0) ink += 1;
	}
	if (ink === 0) return [];
	return [
		gatherComponent(
			Int32Array.from(own, (i) => xs[i] as number),
			Int32Array.from(own, (i) => ys[i] as number),
			Uint8Array.from(own, (i) => darks[i] as number)
		)
	];
}
