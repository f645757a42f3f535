import type { Cited, TargetShape, Text } from '../election/election';
import type { MarkKind, MarkPlace, TargetLevel } from '../marks/mark';
import type { Looks, MachineState } from '../reading/statement';
import type { SwitchName } from './switches';
import type {
	BALLOT_FACTS,
	CHANNELS,
	CHOICE_KINDS,
	CONTEST_KINDS,
	COUNTS,
	DECIDES,
	EXTENTS,
	JURISDICTIONS,
	RANK_EVENTS,
	RESULTS,
	STATUSES,
	Saying,
	Scope,
	TECHNIQUES,
	VOTE_COUNTS
} from './vocabulary';

/** One word, or several of which any will do. */
type OneOrMore<T> = T | readonly T[];

/**
 * Which marks are meant. What is left out may be anything: without `kind` every mark that a hand makes
 * (never a stain, smudge, fold or erasure), without `place` everywhere.
 */
export interface MarkPattern {
	readonly kind?: OneOrMore<MarkKind>;
	readonly place?: OneOrMore<MarkPlace>;
	/** Handwriting that a person has said to be this. Not settled while nobody has said. */
	readonly says?: OneOrMore<Saying>;
	/** `several`: the one mark takes in two choices or more. */
	readonly touches?: 'one' | 'several';
}

/** What was measured in a choice's target. Fill is a share of the target's inside, 0 to 1. */
export interface TargetPattern {
	readonly level?: OneOrMore<TargetLevel>;
	/** This share or more. */
	readonly fillAtLeast?: number;
	/** Less than this share. */
	readonly fillBelow?: number;
}

export type Technique = (typeof TECHNIQUES)[number];
export type VoteCount = (typeof VOTE_COUNTS)[number];
export type RankEvent = (typeof RANK_EVENTS)[number];
export type BallotFact = (typeof BALLOT_FACTS)[number];
export type Channel = (typeof CHANNELS)[number];
export type Count = (typeof COUNTS)[number];
export type Decides = (typeof DECIDES)[number];

/**
 * The pattern language: each condition is an object with exactly one field, its word. README.md has an
 * example of every word; `OPERATORS` says in which clauses it may stand.
 */
export type Condition =
	| { readonly always: true }
	| { readonly all: readonly Condition[] }
	| { readonly any: readonly Condition[] }
	| { readonly not: Condition }
	| { readonly mark: MarkPattern }
	| { readonly target: TargetPattern }
	| { readonly choice: OneOrMore<(typeof CHOICE_KINDS)[number]> }
	| { readonly answer: 'yes' | 'no' }
	| { readonly struck: true }
	| { readonly erased: true }
	| { readonly supported: true }
	| { readonly written: true }
	| { readonly named: true }
	| { readonly technique: Technique }
	| { readonly other: Condition }
	| { readonly everyOther: Condition }
	| { readonly contest: OneOrMore<(typeof CONTEST_KINDS)[number]> }
	| { readonly seats: 'one' | 'several' }
	| { readonly partisan: true }
	| { readonly machine: OneOrMore<MachineState> }
	| { readonly looked: true }
	| { readonly inContest: MarkPattern }
	| { readonly leftUnstruck: 'within-limit' }
	| { readonly someChoice: Condition }
	| { readonly voted: Condition }
	| { readonly votes: OneOrMore<VoteCount> }
	| { readonly ranked: RankEvent }
	| { readonly someContest: Condition }
	| { readonly onBallot: MarkPattern }
	| { readonly ballot: BallotFact }
	| { readonly shape: OneOrMore<TargetShape> }
	| { readonly channel: Channel }
	| { readonly count: OneOrMore<Count> }
	| { readonly switch: { readonly name: SwitchName; readonly is: OneOrMore<string> } };

export type ChoiceResult = (typeof RESULTS.choice)[number];
export type ContestResult = (typeof RESULTS.contest)[number];
export type BallotResult = (typeof RESULTS.ballot)[number];

/** The choices that meet the condition win a contest with too many votes, if they are not too many themselves. */
export interface Prefer {
	readonly prefer: Condition;
}

export type Then = ChoiceResult | ContestResult | BallotResult | Prefer;

/**
 * One rule with its citation: section and paragraph, as a lawyer would cite it. Pure data: the order of clauses has no
 * meaning.
 */
export interface Clause extends Cited {
	/** Unique in its rulebook, for example "AK-a1". */
	readonly id: string;
	/** One short clause of the text at most. */
	readonly quote?: string;
	/** Where the text was read: an address. */
	readonly source: string;
	/** The day it was read, "YYYY-MM-DD". */
	readonly read: string;
	/** `R`: the whole text of this rule was read. `R-part`: the copy stopped; `gap` says what is missing. */
	readonly status: (typeof STATUSES)[number];
	readonly gap?: Text;
	/** true where a rule on places was applied to a case that it does not name. */
	readonly literal?: boolean;
	/** true for decisions under older law, kept for contrast. */
	readonly historic?: boolean;
	readonly scope: Scope;
	readonly when: Condition;
	readonly then: Then;
	/** Ids of clauses of the same scope that give way where this one applies. */
	readonly exceptionTo?: readonly string[];
	/** Ids of clauses of any scope that say otherwise, with nothing to tell which wins: both applying is `refer`. */
	readonly conflictsWith?: readonly string[];
	/** Who decides, where the source says. */
	readonly decides?: Decides;
	/** One plain sentence in every language of the app. */
	readonly plain: Text;
}

/** A rule that was read and is not in the clauses, with the reason. */
export interface OutOfScope extends Cited {
	readonly plain: Text;
	readonly why?: Text;
}

/** A published set of voter-intent rules as data: one JSON document, `sets/<id>.json`. */
export interface Rulebook {
	readonly $schema?: string;
	readonly format: 'fairhand-rulebook/1';
	/** "us-" and two letters, a country's two letters, or an office's own. */
	readonly id: string;
	readonly title: Text;
	readonly jurisdiction: (typeof JURISDICTIONS)[number];
	/** Which version of the text, in the words of its publisher. */
	readonly versionRead: string;
	/** "YYYY-MM-DD" */
	readonly readOn: string;
	readonly howMuchRead: (typeof EXTENTS)[number];
	/** What was not read; there unless the whole text was. */
	readonly gap?: Text;
	/** That this is a study copy, not legal advice, and that the office decides. */
	readonly caution: Text;
	/** true where the rules were made up for a demonstration. */
	readonly invented?: boolean;
	/** When people look at a contest at all. */
	readonly looks: Looks;
	/** A contest condition that says which contests are looked at, where the four words are not enough. */
	readonly looksWhen?: Condition;
	/** The clause that says when people look. */
	readonly looksClause?: string;
	/** Who decides a contest that is referred, where the text says so in general. */
	readonly decides?: { readonly how: Decides; readonly clause: string };
	/** How a ballot is taken to come in and be counted while nobody has said otherwise. */
	readonly assumes?: { readonly channel?: Channel; readonly count?: Count };
	readonly switches?: Readonly<Partial<Record<SwitchName, string>>>;
	readonly clauses: readonly Clause[];
	readonly outOfScope: readonly OutOfScope[];
}
