/** A word shorter than this is taken as it stands: a slip in it may be any of many words. */
const SHORTEST = 4;
/** From so many letters on, two slips are forgiven. */
const TWO_SLIPS_FROM = 8;

/**
 * The known word that `word` is most likely a slip of: a letter wrong, left out, doubled or changed places, two such in
 * a long word. Among equally near ones, the one with the same beginning, then the first. Undefined when none is near.
 */
export function nearestWord(word: string, known: Iterable<string>): string | undefined {
	if (word.length < SHORTEST) return undefined;
	const most = word.length >= TWO_SLIPS_FROM ? 2 : 1;
	let nearest: string | undefined;
	let fewest = most + 1;
	for (const other of known) {
		if (Math.abs(other.length - word.length) > most || other.length < SHORTEST - 1) continue;
		// People seldom miss the first letter; where they do, they are one slip worse off.
		const slips = slipsBetween(word, other, most) + (word[0] === other[0] ? 0 : 0.5);
		if (slips < fewest) {
			fewest = slips;
			nearest = other;
		}
	}
	return nearest;
}

/**
 * Letters to change, leave out, add or swap with the next to turn one word into the other (Damerau 1964, restricted to
 * swaps of neighbours), or more than `most` as soon as that is sure.
 */
function slipsBetween(a: string, b: string, most: number): number {
	let before: number[] = [];
	let row = Array.from({ length: b.length + 1 }, (_, j) => j);
	for (let i = 1; i <= a.length; i++) {
		const next = [i];
		let least = i;
		for (let j = 1; j <= b.length; j++) {
			const same = a[i - 1] === b[j - 1] ? 0 : 1;
			let cost = Math.min((row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1, (row[j - 1] ?? 0) + same);
			if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
				cost = Math.min(cost, (before[j - 2] ?? 0) + 1);
			next.push(cost);
			least = Math.min(least, cost);
		}
		if (least > most) return most + 1;
		before = row;
		row = next;
	}
	return row[b.length] ?? most + 1;
}
