/** Cells under this are not given out: a number of few may point at a person. */
export const LEAST_SHOWN = 10;

/** A cell as it is given out: its count, or undefined where it is held back. */
export interface ShownCount {
	readonly cell: string;
	readonly count: number | undefined;
}

/**
 * The cells of one table, in the order of `known`, those of 0 left out. A cell under 10 is held back; where the cells
 * held back hold fewer than 10 together, the next smallest is held back too, so that no table's sum gives a small one
 * away.
 */
export function shownCounts(counts: Readonly<Record<string, number>>, known: readonly string[]): readonly ShownCount[] {
	const there = known.flatMap((cell) => (counts[cell] ? [{ cell, count: counts[cell] }] : []));
	const bySize = [...there].sort((a, b) => a.count - b.count);
	const held = new Set<string>();
	let together = 0;
	for (const one of bySize) {
		if (one.count >= LEAST_SHOWN && (held.size === 0 || together >= LEAST_SHOWN)) break;
		held.add(one.cell);
		together += one.count;
	}
	return there.map(({ cell, count }) => ({ cell, count: held.has(cell) ? undefined : count }));
}
