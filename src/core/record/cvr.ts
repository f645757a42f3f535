/**
 * The part of NIST SP 1500-103, Cast Vote Records 1.0, that a practice reading fills. Names are the standard's own;
 * its schema allows no others.
 */

export type Indication = 'yes' | 'no' | 'unknown';

export interface SelectionPosition {
	readonly '@type': 'CVR.SelectionPosition';
	/** Whether there is a mark here, as far as a machine or people can say. */
	readonly HasIndication: Indication;
	/** How many votes a mark here stands for. */
	readonly NumberVotes: number;
	readonly Position: number;
	readonly Rank?: number;
	/** Whether those votes may be given to the choice; not there where nobody has said. */
	readonly IsAllocable?: Indication;
	/** Score, fill and darkness, as `MarkMetricType` of the device says. */
	readonly MarkMetricValue: readonly string[];
	readonly Status?: readonly 'invalidated-rules'[];
	/** There is handwriting. It is never made into text. */
	readonly CVRWriteIn?: { readonly '@type': 'CVR.CVRWriteIn' };
}

export interface ContestSelection {
	readonly '@type': 'CVR.CVRContestSelection';
	readonly ContestSelectionId: string;
	/** Its place on this ballot, from 1. */
	readonly OptionPosition: number;
	readonly SelectionPosition: readonly SelectionPosition[];
	readonly TotalNumberVotes?: number;
	readonly Status?: readonly ('invalidated-rules' | 'needs-adjudication')[];
}

export interface RecordedContest {
	readonly '@type': 'CVR.CVRContest';
	readonly ContestId: string;
	/** How many choices the contest has. */
	readonly Selections: number;
	/** Votes lost because there were too many. With the undervotes and the votes given: as many as are allowed. */
	readonly Overvotes?: number;
	readonly Undervotes?: number;
	readonly WriteIns?: number;
	readonly CVRContestSelection?: readonly ContestSelection[];
	readonly Status?: readonly ('not-indicated' | 'overvoted' | 'undervoted' | 'invalidated-rules')[];
}

/** `original`: as measured. `interpreted`: after the rules of each contest. `modified`: after people have looked. */
export interface Snapshot {
	readonly '@type': 'CVR.CVRSnapshot';
	readonly '@id': string;
	readonly Type: 'original' | 'interpreted' | 'modified';
	readonly Status?: readonly 'needs-adjudication'[];
	readonly Annotation: readonly { readonly '@type': 'CVR.Annotation'; readonly Message: readonly string[] }[];
	readonly CVRContest: readonly RecordedContest[];
}

/** A document of the standard with its type and whatever else its class holds. */
export interface Typed {
	readonly '@type': string;
	readonly [field: string]: unknown;
}

export interface Report extends Typed {
	readonly '@type': 'CVR.CastVoteRecordReport';
	readonly CVR: readonly (Typed & { readonly UniqueId: string; readonly CVRSnapshot: readonly Snapshot[] })[];
}

/** Ids of the document. Choices are named within their contest. */
export const idOf = {
	election: (election: string): string => `election.${election}`,
	contest: (contest: string): string => `contest.${contest}`,
	selection: (contest: string, choice: string): string => `selection.${contest}.${choice}`,
	candidate: (contest: string, choice: string): string => `candidate.${contest}.${choice}`,
	party: (party: string): string => `party.${party}`,
	precinct: (precinct: string): string => `precinct.${precinct}`,
	snapshot: (type: Snapshot['Type']): string => `snapshot.${type}`
} as const;
