/** A note that wants to stand at `wantedPx` and is `heightPx` tall. */
export interface WantedNote {
	readonly id: string;
	readonly wantedPx: number;
	readonly heightPx: number;
}

/**
 * Places notes down one margin so that none overlaps another and each stands as near to where it wants
 * to be as its neighbours let it. The `current` note stands exactly where it wants to, unless the notes
 * above it would then leave the page at the top. Returns the top of each note by id, in pixels.
 */
export function stackNotes(notes: readonly WantedNote[], gapPx: number, current?: string): ReadonlyMap<string, number> {
	const order = [...notes].sort((a, b) => a.wantedPx - b.wantedPx);
	const tops = order.map((note) => Math.max(0, note.wantedPx));
	pushDown(order, tops, gapPx, 0);
	const at = order.findIndex((note) => note.id === current);
	const fixed = order[at];
	if (fixed) {
		const above = order.slice(0, at).reduce((sum, note) => sum + note.heightPx + gapPx, 0);
		tops[at] = Math.max(above, fixed.wantedPx);
		pushUp(order, tops, gapPx, at);
		for (let i = at + 1; i < order.length; i += 1) tops[i] = Math.max(0, order[i]?.wantedPx ?? 0);
		pushDown(order, tops, gapPx, at);
	}
	return new Map(order.map((note, i) => [note.id, tops[i] ?? 0]));
}

function pushDown(order: readonly WantedNote[], tops: number[], gapPx: number, from: number): void {
	for (let i = from + 1; i < order.length; i += 1) {
		const end = (tops[i - 1] ?? 0) + (order[i - 1]?.heightPx ?? 0) + gapPx;
		tops[i] = Math.max(tops[i] ?? 0, end);
	}
}

function pushUp(order: readonly WantedNote[], tops: number[], gapPx: number, from: number): void {
	for (let i = from - 1; i >= 0; i -= 1) {
		const start = (tops[i + 1] ?? 0) - gapPx - (order[i]?.heightPx ?? 0);
		tops[i] = Math.min(tops[i] ?? 0, start);
	}
}
