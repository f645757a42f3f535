import type { Rulebook } from '$core/rules/rule';
import { ruleOn, type RuledCase, type TrainingTable } from '$core/training/ruleOn';

/** Asks a rulebook about cases, about each only when it is first wanted. */
export function askOnce(table: TrainingTable, rulebook: Rulebook): (id: string) => RuledCase {
	const known = new Map<string, RuledCase>();
	return (id) => {
		const before = known.get(id);
		if (before) return before;
		const fresh = ruleOn(id, table, rulebook);
		known.set(id, fresh);
		return fresh;
	};
}
