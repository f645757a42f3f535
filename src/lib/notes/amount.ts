/**
 * How much of a target is ink, as a word: a key of `reading.amount.`. Words and no figures, because a voter
 * is always asked to fill all of it; the office's figures stand under "How marks are measured".
 */
export function amountOf(fill: number): 'none' | 'trace' | 'some' | 'half' | 'most' | 'all' {
	if (fill <= 0) return 'none';
	if (fill < 0.08) return 'trace';
	if (fill < 0.35) return 'some';
	if (fill < 0.65) return 'half';
	return fill < 0.88 ? 'most' : 'all';
}
