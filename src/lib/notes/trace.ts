import type { Cited } from '$core/election/election';
import type { TraceStep } from '$core/reading/statement';
import type { Clause, Rulebook } from '$core/rules/rule';

/** One clause that was looked at, with all that came of it, choice by choice. */
export interface TracedClause {
	readonly clause: Clause;
	readonly result: TraceStep['result'];
	/** Ids of marks that met it, and of choices it spoke of. */
	readonly marks: readonly string[];
	readonly choices: readonly string[];
	/** The exceptions that it gave way to. */
	readonly by: readonly Cited[];
	/** Why it did not apply: keys of `rules.missing.`, and whether a person must settle the point first. */
	readonly missing: readonly { readonly key: string; readonly unsure: boolean }[];
}

/**
 * The trace of one contest by clause: a clause that applied to any choice is among the applied, one that
 * gave way among the overridden, one that a person must settle among the unsure, the rest among those not met. Steps of clauses that the rulebook does not
 * have are left out.
 */
export function traceByClause(trace: readonly TraceStep[], { clauses }: Rulebook): readonly TracedClause[] {
	const byId = new Map<string, Cited>(clauses.map((clause) => [clause.id, clause]));
	return clauses.flatMap((clause): readonly TracedClause[] => {
		const steps = trace.filter((step) => step.clause === clause.id);
		const result = RESULTS.find((one) => steps.some((step) => step.result === one));
		if (result === undefined) return [];
		const told = steps.filter((step) => step.result === result);
		const unique = <T>(list: readonly T[]): readonly T[] => [...new Set(list)];
		return [
			{
				clause,
				result,
				marks: unique(told.flatMap(({ marks }) => marks)),
				choices: unique(told.flatMap(({ choice }) => (choice === undefined ? [] : [choice]))),
				by: unique(told.flatMap(({ by }) => (by === undefined ? [] : [by]))).map((id) => byId.get(id) ?? { cite: id }),
				missing: unique(told.flatMap(({ missing }) => (missing === undefined ? [] : [missing]))).map(readMissing)
			}
		];
	});
}

const RESULTS: readonly TraceStep['result'][] = ['applied', 'overridden', 'unsure', 'not-met'];

const UNSURE = 'unsure.';
const readMissing = (missing: string): TracedClause['missing'][number] =>
	missing.startsWith(UNSURE) ? { key: missing.slice(UNSURE.length), unsure: true } : { key: missing, unsure: false };
