import type { BallotFacts } from '../rules/facts';
import { compareRulebooks, type ContestVerdict, type RulebookVerdict } from '../rules/compareRulebooks';
import type { Rulebook } from '../rules/rule';

const atTable = new WeakMap<Rulebook, Rulebook>();

/**
 * What a rulebook makes of a contest once it lies on a review table: there people do look, whether or not the rule would
 * have sent it there, unless the rule says that they never do. When they would look is left as the rule has it.
 */
export function tableVerdict(rulebook: Rulebook, facts: BallotFacts): RulebookVerdict {
	const [told] = compareRulebooks([rulebook], facts);
	const [looked] = compareRulebooks([lookedAt(rulebook)], facts);
	if (!told || !looked) throw new RangeError('tableVerdict: expected a verdict, got none');
	return {
		...looked,
		rulebook,
		contests: looked.contests.map((contest): ContestVerdict => {
			const own = told.contests.find((one) => one.contest === contest.contest);
			return own ? { ...contest, looks: own.looks, wouldLook: own.wouldLook } : contest;
		})
	};
}

function lookedAt(rulebook: Rulebook): Rulebook {
	if (rulebook.looks === 'never') return rulebook;
	let copy = atTable.get(rulebook);
	if (!copy) {
		copy = { ...rulebook, looks: 'always' };
		atTable.set(rulebook, copy);
	}
	return copy;
}

/** In place of a clause's id: the rulebook is silent, or it does not settle the case by itself. */
export const SILENT = 'silent';
export const UNSETTLED = 'unsettled';

/**
 * By what a contest is decided: ids of the clauses. Where the rule alone does not settle it, every clause that might yet
 * apply is named in the verdict, and none of them has decided anything.
 */
export function groundsOf({ outcome, clauses }: ContestVerdict): readonly string[] {
	if (outcome === 'silent') return [SILENT];
	if (outcome === 'refer' || outcome === 'duplicate') return [UNSETTLED];
	return clauses.map(({ id }) => id);
}
