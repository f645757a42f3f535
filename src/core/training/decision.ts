import type { Contest } from '../election/election';
import type { ContestVerdict } from '../rules/compareRulebooks';

/** What somebody at a table may decide besides a vote. `refer`: the rule alone does not settle it. */
export const OTHER_DECISIONS = ['no-vote', 'too-many', 'blank', 'refer'] as const;
export type OtherDecision = (typeof OTHER_DECISIONS)[number];

/** `vote` has at least one choice, in ballot order; the others have none. */
export type Decision =
	{ readonly outcome: 'vote'; readonly votes: readonly string[] } | { readonly outcome: OtherDecision };

/** What a rulebook's verdict on a contest is as a decision. `isMarked`: whether anything was found in the contest. */
export function decisionOf({ outcome, votes }: Pick<ContestVerdict, 'outcome' | 'votes'>, isMarked: boolean): Decision {
	switch (outcome) {
		case 'vote':
		case 'undervote':
			if (votes.length > 0) return { outcome: 'vote', votes };
			return { outcome: isMarked ? 'no-vote' : 'blank' };
		case 'overvote':
			return { outcome: 'too-many' };
		case 'blank':
			return { outcome: 'blank' };
		case 'no-vote':
		case 'void-contest':
		case 'void-ballot':
			return { outcome: 'no-vote' };
		// A rule that is silent settles nothing either, and a copy is made of what people first decide.
		case 'refer':
		case 'silent':
		case 'duplicate':
			return { outcome: 'refer' };
	}
}

/** Two decisions are the same where their keys are; the order in which choices were named has no meaning. */
export const decisionKey = (decision: Decision): string =>
	decision.outcome === 'vote' ? `vote:${[...decision.votes].sort().join('+')}` : decision.outcome;

/**
 * A decision as one of a list of names that contests share: a vote by the rows it is for, since the first row of one
 * contest is not the first row's name of another. Throws a RangeError for a choice that the contest does not have.
 */
export function categoryOf(decision: Decision, { id, choices }: Pick<Contest, 'id' | 'choices'>): string {
	if (decision.outcome !== 'vote') return decision.outcome;
	const rows = decision.votes.map((vote) => {
		const row = choices.findIndex((choice) => choice.id === vote);
		if (row < 0) throw new RangeError(`categoryOf: expected a choice of contest "${id}", got "${vote}"`);
		return row + 1;
	});
	return `vote:${rows.sort((a, b) => a - b).join('+')}`;
}
