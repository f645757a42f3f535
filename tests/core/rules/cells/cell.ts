import type { Told } from '$core/rules/facts';
import type { PeopleOutcome, BallotStatement } from '$core/reading/statement';
import type { Decides } from '$core/rules/rule';
import type { TargetShape } from '$core/election/election';
import type { Saying } from '$core/rules/vocabulary';

/** What a published rule makes of a situation. Only what is named is compared. */
export interface Expectation {
	readonly outcome?: PeopleOutcome;
	/** Roles of the choices voted for, on a ranked contest in order. */
	readonly votes?: readonly string[];
	/** Ids that must be among the clauses cited, for the contest or for the sheet. */
	readonly clauses?: readonly string[];
	readonly ballot?: BallotStatement['outcome'];
	readonly wouldLook?: boolean;
	readonly decides?: Decides;
}

/** One situation under one rulebook: what the published rule says of it, with its citation. */
export interface TestedCell {
	/** Number of the situation in the list of published rules, 1 to 39; 0 for a fixture of the source itself. */
	readonly row: number;
	readonly fixture?: string;
	readonly picture: string;
	readonly everywhere?: boolean;
	readonly told?: Omit<Told, 'words'> & { readonly says?: Saying | null };
	readonly vary?: { readonly shape?: TargetShape };
	readonly expect: Expectation;
	readonly source: string;
}

/** A situation that is not tested, with the reason. */
export interface SkippedCell {
	readonly row: number;
	readonly fixture?: string;
	readonly skip: string;
}

export type Cell = TestedCell | SkippedCell;

/** All situations of one rulebook: `<rulebook>.json`. */
export interface CellFile {
	readonly rulebook: string;
	readonly cells: readonly Cell[];
}

export const isTested = (cell: Cell): cell is TestedCell => !('skip' in cell);

/** The sentence that names a cell's test: "us-ca row 5 check-in-target everywhere: vote A (2 CCR 20983(c)(3))". */
export function nameOf(rulebook: string, cell: TestedCell): string {
	const { row, fixture, picture, everywhere, told, vary, expect, source } = cell;
	const parts = [
		rulebook,
		row === 0 ? `fixture ${fixture ?? ''}` : `row ${row}`,
		picture,
		...(everywhere ? ['everywhere'] : []),
		...Object.values(vary ?? {}),
		...Object.entries(told ?? {}).map(([name, value]) => `${name} ${String(value)}`)
	];
	const { outcome, votes = [], ballot, wouldLook, decides } = expect;
	const said = [
		...(outcome === undefined ? [] : [[outcome, ...votes].join(' ')]),
		...(ballot === undefined ? [] : [`ballot ${ballot}`]),
		...(wouldLook === undefined ? [] : [wouldLook ? 'people look' : 'nobody looks']),
		...(decides === undefined ? [] : [`decided by ${decides}`])
	];
	return `${parts.join(' ')}: ${said.join(', ')} (${source})`;
}
