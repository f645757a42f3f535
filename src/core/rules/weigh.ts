import type { CompiledClause } from './compile';
import { mayHold } from './needs';
import type { Cell, Place } from './place';
import { testCondition } from './testCondition';
import { both, either, negate, NO, type Truth } from './truth';

/** What has come of each clause of one scope at one place, in the order of the compiled list. */
export interface Weighed {
	/** Whether its condition holds. */
	readonly met: readonly Truth[];
	/** Whether it applies: its condition holds and no exception to it applies. */
	readonly active: readonly Truth[];
}

/** Nearly every choice of a ballot meets no clause; all of them share this. */
export const NOTHING_MET: Weighed = { met: [], active: [] };

/**
 * Tests every clause and lets exceptions override: a clause applies where its condition holds and no
 * exception to it applies; an exception to an exception restores. `extra` adds a condition to a clause.
 */
export function weigh(
	clauses: readonly CompiledClause[],
	at: Place,
	cell: Cell,
	extra?: (clause: CompiledClause) => Truth
): Weighed {
	let met: Truth[] | undefined;
	// The same list as `met` until an exception makes a difference.
	let active: Truth[] | undefined;
	for (let i = 0; i < clauses.length; i++) {
		const clause = clauses[i];
		if (!clause) continue;
		let found = cell && !mayHold(clause.needs, cell) ? NO : testCondition(clause.when, at, cell);
		if (extra && found !== NO) found = both(found, extra(clause));
		if (found === NO) continue;
		met ??= nothing(clauses.length);
		active ??= met;
		met[i] = found;
		let overridden: Truth = NO;
		for (const by of clause.exceptions) overridden = either(overridden, active[by] ?? NO);
		const applies = both(found, negate(overridden));
		if (active === met && applies !== found) active = [...met];
		active[i] = applies;
	}
	return met && active ? { met, active } : NOTHING_MET;
}

/** A list of its full length at once: these are most of what deciding leaves behind. */
const nothing = (length: number): Truth[] => new Array<Truth>(length).fill(NO);
