import type { Clause, Rulebook } from '$core/rules/rule';

/** How one clause stands to others of its rulebook. */
export interface Relations {
	/** What it is an exception to. */
	readonly goesBefore: readonly Clause[];
	/** What is an exception to it. */
	readonly givesWay: readonly Clause[];
	/** What says otherwise, whichever of the two names the other. */
	readonly conflicts: readonly Clause[];
}

export function relationsOf(clause: Clause, { clauses }: Pick<Rulebook, 'clauses'>): Relations {
	const { id, exceptionTo = [], conflictsWith = [] } = clause;
	return {
		goesBefore: clauses.filter((other) => exceptionTo.includes(other.id)),
		givesWay: clauses.filter((other) => other.exceptionTo?.includes(id)),
		conflicts: clauses.filter((other) => conflictsWith.includes(other.id) || other.conflictsWith?.includes(id))
	};
}

/** What a clause comes to, as a key of `rulesPage.then.` */
export const thenKey = ({ then }: Pick<Clause, 'then'>): string => (typeof then === 'string' ? then : 'prefer');

/** Whether a source is an address that can be opened; an invented rulebook has none. */
export const isAddress = (source: string): boolean => /^https?:\/\//.test(source);
