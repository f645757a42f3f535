import { PX_PER_MM } from '../image';
import { gatherComponent, type Component } from './components';

/** Where a crease is wider than this, something else lies on it, in millimetres. */
const THICK_MM = 1.1;

/** Its blurred edge to both sides, in pixels. */
const EDGE_PX = 2;

/** A crease without the marks it runs through. `level`: along the page's width. */
export function cutCrease(
	piece: Component,
	level: boolean
): { readonly thin: readonly Component[]; readonly thick: readonly Component[] } {
	const from = level ? piece.left : piece.top;
	const length = (level ? piece.right : piece.bottom) - from;
	const along = level ? piece.xs : piece.ys;
	const counts = new Uint16Array(length);
	for (const at of along) counts[at - from] = (counts[at - from] as number) + 1;
	/** Which run of thick places a place belongs to, from 1. */
	const runs = new Uint16Array(length);
	let run = 0;
	for (let i = 0; i < length; i++) {
		if ((counts[i] as number) <= THICK_MM * PX_PER_MM) continue;
		const first = Math.max(0, i - EDGE_PX);
		if (runs[first] === 0 && runs[i] === 0) run += 1;
		for (let j = first; j <= Math.min(length - 1, i + EDGE_PX); j++) runs[j] = run;
	}
	if (run === 0) return { thin: [piece], thick: [] };
	const members: number[][] = Array.from({ length: run + 1 }, () => []);
	along.forEach((at, i) => members[runs[at - from] as number]?.push(i));
	const parts = members.map((own) => (own.length > 0 ? pick(piece, own) : undefined));
	const [thin, ...thick] = parts;
	return { thin: thin ? [thin] : [], thick: thick.filter((one) => one !== undefined) };
}

function pick({ xs, ys, darks }: Component, own: readonly number[]): Component {
	return gatherComponent(
		Int32Array.from(own, (i) => xs[i] as number),
		Int32Array.from(own, (i) => ys[i] as number),
		Uint8Array.from(own, (i) => darks[i] as number)
	);
}
