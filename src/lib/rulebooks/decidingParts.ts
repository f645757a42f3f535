import type { RulebookVerdict } from '$core/rules/compareRulebooks';
import type { Clause } from '$core/rules/rule';
import { traceByClause, type TracedClause } from '$lib/notes/trace';

/** What would come of it: a vote or no vote for the named choices, a decision by people, or something else. */
export type MightBe = 'vote' | 'no-vote' | 'refer' | 'else';

/** Clauses that would come to the same, if what is not sure were settled their way. */
export interface OpenParts {
	readonly to: MightBe;
	/** Ids of the choices they speak of. */
	readonly choices: readonly string[];
	readonly clauses: readonly Clause[];
}

/** The clauses behind a verdict, each once: those that decide, and those that hang on what a person must settle first. */
export interface DecidingParts {
	readonly decide: readonly Clause[];
	readonly open: readonly OpenParts[];
}

const ORDER: readonly MightBe[] = ['vote', 'no-vote', 'refer', 'else'];

/** The deciding clauses of every contest and of the sheet. Any that is not known to hang on something decides. */
export function decidingParts({ rulebook, contests, ballotClauses }: RulebookVerdict): DecidingParts {
	const deciding = new Set([...contests.flatMap(({ clauses }) => clauses), ...ballotClauses]);
	// Only what people must decide has open parts. A trace is long: not made for the rest.
	const referred = contests.filter(({ outcome }) => outcome === 'refer');
	const traced = traceByClause(
		referred.flatMap(({ trace }) => trace),
		rulebook
	);
	const sure = new Set(contests.filter((one) => !referred.includes(one)).flatMap(({ clauses }) => clauses));
	const open = traced.filter(
		({ clause, result }) =>
			result === 'unsure' && deciding.has(clause) && !sure.has(clause) && !ballotClauses.includes(clause)
	);
	const hanging = new Set(open.map(({ clause }) => clause));
	return {
		decide: rulebook.clauses.filter((clause) => deciding.has(clause) && !hanging.has(clause)),
		open: groupsOf(open)
	};
}

function groupsOf(open: readonly TracedClause[]): readonly OpenParts[] {
	const groups = new Map<string, OpenParts>();
	for (const { clause, choices } of open) {
		const to = mightBe(clause);
		const named = to === 'vote' || to === 'no-vote' ? choices : [];
		const key = JSON.stringify([to, named]);
		groups.set(key, { to, choices: named, clauses: [...(groups.get(key)?.clauses ?? []), clause] });
	}
	return [...groups.values()].sort((a, b) => ORDER.indexOf(a.to) - ORDER.indexOf(b.to));
}

function mightBe({ scope, then }: Clause): MightBe {
	if (then === 'refer') return 'refer';
	return scope === 'choice' && (then === 'vote' || then === 'no-vote') ? then : 'else';
}
