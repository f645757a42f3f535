import type { CellDecision } from './decideChoices';

/** One step of a ranking as it is read from rank 1 up. */
export interface RankStep {
	readonly rank: number;
	/** What is out of order at this rank, in the order in which it is met. */
	readonly events: readonly string[];
	/** The one choice of this rank; undefined where there are several. */
	readonly choice: string | undefined;
}

/**
 * A ranking in the order of ranks, ranks left blank told as skips of the next one used. Blank ranks after
 * the last are no skip. A choice ranked before is `same-choice`.
 */
export function stepsOf(decisions: readonly CellDecision[]): readonly RankStep[] {
	const ranks = [...new Set(decisions.map(({ cell }) => cell.rank ?? 1))].sort((a, b) => a - b);
	const steps: RankStep[] = [];
	const seen = new Set<string>();
	let skipped = 0;
	for (const rank of ranks) {
		const choices = decisions.filter(({ cell, result }) => (cell.rank ?? 1) === rank && result === 'vote');
		if (choices.length === 0) {
			skipped++;
			continue;
		}
		const events: string[] = [];
		if (skipped > 0) events.push(skipped === 1 ? 'one-skip' : 'two-skips');
		skipped = 0;
		const choice = choices.length === 1 ? choices[0]?.cell.id : undefined;
		if (choice === undefined) events.push('same-rank');
		else if (seen.has(choice)) events.push('same-choice');
		if (choice !== undefined) seen.add(choice);
		steps.push({ rank, events, choice });
	}
	return steps;
}
