import type { Stage } from '../election/election';
import type { TargetReading } from '../marks/mark';

/**
 * What a machine would likely see in one contest. `read`: as many votes as allowed; `undervote`: some,
 * but fewer; `overvote`: more than allowed (`votes` is then empty); `unsure`: a target between the
 * thresholds decides it.
 */
export type MachineState = 'read' | 'undervote' | 'overvote' | 'blank' | 'unsure';

export interface MachineStatement {
	readonly state: MachineState;
	/** Choice ids, in ballot order. On a ranked contest in the order of rank. */
	readonly votes: readonly string[];
	readonly targets: readonly TargetReading[];
}

/**
 * What people would decide under the rulebook. `vote`: its votes are listed, even when fewer than
 * allowed. `no-vote`: there are marks, none accepted. `refer`: clauses conflict, or a word or a name
 * must be read by a person. `silent`: the rulebook says nothing of this.
 */
export type PeopleOutcome =
	| 'vote'
	| 'no-vote'
	| 'undervote'
	| 'overvote'
	| 'blank'
	| 'refer'
	| 'silent'
	| 'void-contest'
	| 'void-ballot'
	| 'duplicate';

/** When people look at a contest at all. */
export type Looks = 'always' | 'set-aside' | 'over-or-under' | 'never';

/** A majority of those who look, all of them, or one official. */
export type Decides = 'majority' | 'unanimous' | 'discretion';

export interface ClauseReference {
	readonly id: string;
	readonly cite: string;
}

/** One clause that was looked at, and what came of it. Data, not sentences. */
export interface TraceStep {
	readonly clause: string;
	readonly cite: string;
	/**
	 * `applied`; `overridden` by a named exception; `not-met`: its condition did not hold; `unsure`: it hangs
	 * on something that a person must settle, named in `missing`.
	 */
	readonly result: 'applied' | 'overridden' | 'not-met' | 'unsure';
	/** The exception that overrode it. */
	readonly by?: string;
	/** The choice it spoke about, where it spoke of one. */
	readonly choice?: string;
	/** Marks that met its condition. */
	readonly marks: readonly string[];
	/** The part of the condition that did not hold, as a key of our own: "mark.kind", "contest.overvote" … */
	readonly missing?: string;
	/** Values used: switches, numbers, kinds. */
	readonly values: Readonly<Record<string, string | number | boolean>>;
}

export interface PeopleStatement {
	readonly outcome: PeopleOutcome;
	readonly votes: readonly string[];
	/** When people look, under this rulebook. */
	readonly looks: Looks;
	/** Whether they would look at this contest, given what the machine saw. */
	readonly wouldLook: boolean;
	/** The clauses that decided it. */
	readonly clauses: readonly ClauseReference[];
	/** How people settle it, where the rulebook says. */
	readonly decides?: Decides;
	readonly trace: readonly TraceStep[];
}

/** A rule about the whole sheet: void, duplicate, or nothing (`none`). */
export interface BallotStatement {
	readonly outcome: 'none' | 'void-ballot' | 'duplicate' | 'refer' | 'silent';
	readonly clauses: readonly ClauseReference[];
	/** How people settle it, where the rulebook says. */
	readonly decides?: Decides;
	readonly trace: readonly TraceStep[];
}

/** A piece of advice: a key of `advice.` in the locales, with the values its sentence needs. */
export interface Advice {
	readonly key: string;
	readonly values: Readonly<Record<string, string | number>>;
	/** The texts of the election file that belong to it, by path: "instructions.correction.steps.holding". */
	readonly office?: string;
	/** Ids of marks it is about. */
	readonly marks?: readonly string[];
	readonly choice?: string;
	/** Where the ballot must be for it to apply; without it, anywhere. */
	readonly stage?: Stage;
	/** How pressing: `look` asks for a second look, `calm` does not. */
	readonly tone: 'calm' | 'look';
}

export interface ContestReading {
	readonly contest: string;
	readonly machine: MachineStatement;
	readonly people: PeopleStatement;
	readonly advice: readonly Advice[];
	/** Ids of the marks that belong to this contest. */
	readonly marks: readonly string[];
	/** Would anyone tell the voter in time? By mail nobody does. */
	readonly warned: { readonly pollingPlace: boolean; readonly mail: false };
}
