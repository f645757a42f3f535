import type { BallotFacts, ChoiceFacts, ContestFacts } from './facts';
import type { Rulebook } from './rule';

/** What has come of one choice: `open` where clauses disagree or a person must settle something. */
export type CellResult = 'none' | 'vote' | 'no-vote' | 'open';

/** What has come of a contest's choices, in their order. */
export interface Tally {
	readonly choices: readonly { readonly result: CellResult }[];
	readonly votes: number;
	readonly open: number;
	/** What is out of order in a ranking, in the order of ranks. */
	readonly rankEvents: readonly string[];
}

/** Where a condition is tested. `contest` and `tally` are there in contest clauses, `decided` in ballot clauses. */
export interface Place {
	readonly rulebook: Rulebook;
	readonly ballot: BallotFacts;
	readonly contest: ContestFacts | undefined;
	readonly tally: Tally | undefined;
	readonly looked: boolean;
	readonly decided: readonly { readonly contest: ContestFacts; readonly tally: Tally; readonly looked: boolean }[];
}

export type Cell = ChoiceFacts | undefined;
