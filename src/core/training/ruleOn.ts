import type { Contest, Election } from '../election/election';
import type { Layout } from '../layout/layout';
import { readMachine } from '../reading/readMachine';
import type { MachineStatement } from '../reading/statement';
import type { RulebookVerdict } from '../rules/compareRulebooks';
import type { Rulebook } from '../rules/rule';
import type { Judged } from './agreement';
import { categoryOf, decisionOf, type Decision } from './decision';
import { factsOfCase, type ReadCase } from './reviewQueue';
import { groundsOf, tableVerdict } from './tableVerdict';

/** All that a review table needs in one language. */
export interface TrainingTable {
	/** See `stackOf`. */
	readonly stack: string;
	readonly election: Election;
	/** By contest. */
	readonly layouts: Readonly<Record<string, Layout>>;
	/** Least certain first. */
	readonly queue: readonly ReadCase[];
}

/** A case with what one rulebook makes of it, and what a machine would see. */
export interface RuledCase {
	readonly id: string;
	readonly contest: Contest;
	readonly verdict: RulebookVerdict;
	readonly machine: MachineStatement;
	readonly ruling: Decision;
	/** Ids of the deciding clauses, or what stands for none; see `groundsOf`. */
	readonly grounds: readonly string[];
	/** false where the rule alone leaves it open, so that nobody's decision is wrong. */
	readonly isSettled: boolean;
}

/** Asks a rulebook about a case of a table. Throws a RangeError for a case that the table was not dealt. */
export function ruleOn(id: string, { election, layouts, queue }: TrainingTable, rulebook: Rulebook): RuledCase {
	const one = queue.find((dealt) => dealt.id === id);
	const contest = election.contests.find((each) => each.id === one?.contest);
	const layout = contest && layouts[contest.id];
	if (!one || !layout) throw new RangeError(`ruleOn: expected a case of ${queue.length} dealt, got "${id}"`);
	const verdict = tableVerdict(rulebook, factsOfCase(one, election, layout));
	const decided = verdict.contests.find((each) => each.contest === contest.id);
	if (!decided) throw new RangeError(`ruleOn: expected a verdict on "${contest.id}", got none`);
	const ruling = decisionOf(decided, one.found.marks.length > 0);
	return {
		id,
		contest,
		verdict,
		machine: readMachine(contest, [one.found]),
		ruling,
		grounds: groundsOf(decided),
		isSettled: ruling.outcome !== 'refer'
	};
}

/** A decision on a ruled case, ready to be laid beside another. */
export const judgedAs = ({ id, contest, grounds }: RuledCase, decision: Decision): Judged => ({
	case: id,
	category: categoryOf(decision, contest),
	grounds
});
