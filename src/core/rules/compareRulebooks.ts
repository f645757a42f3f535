import type { BallotStatement, Decides, Looks, PeopleOutcome, TraceStep } from '../reading/statement';
import { evaluate } from './evaluate';
import type { BallotFacts } from './facts';
import type { Clause, Rulebook } from './rule';

/** What one rulebook makes of one contest. */
export interface ContestVerdict {
	readonly contest: string;
	readonly outcome: PeopleOutcome;
	readonly votes: readonly string[];
	readonly looks: Looks;
	readonly wouldLook: boolean;
	/**
	 * Whose reading it is: `machine` where a clause lets the machine's reading stand, `people` where people look,
	 * `if-looked` where they would not look and this is what they would decide if they did.
	 */
	readonly by: 'machine' | 'people' | 'if-looked';
	/** The clauses that decided, whole. None where the rulebook is silent. */
	readonly clauses: readonly Clause[];
	readonly decides?: Decides;
	/** Every clause looked at; made when it is first read. */
	readonly trace: readonly TraceStep[];
}

/** What one rulebook makes of one ballot. */
export interface RulebookVerdict {
	readonly rulebook: Rulebook;
	/** In ballot order. */
	readonly contests: readonly ContestVerdict[];
	readonly ballot: BallotStatement['outcome'];
	/** The clauses that decided about the sheet as a whole. */
	readonly ballotClauses: readonly Clause[];
	/** Two verdicts with the same key come to the same, by whatever clauses. */
	readonly key: string;
}

/** The same facts under each rulebook, in the order of the rulebooks. */
export function compareRulebooks(rulebooks: readonly Rulebook[], facts: BallotFacts): readonly RulebookVerdict[] {
	return rulebooks.map((rulebook) => verdictOf(rulebook, facts));
}

function verdictOf(rulebook: Rulebook, facts: BallotFacts): RulebookVerdict {
	const { contests, ballot } = evaluate(rulebook, facts);
	const clausesOf = (references: readonly { readonly id: string }[]): readonly Clause[] =>
		rulebook.clauses.filter(({ id }) => references.some((reference) => reference.id === id));
	const verdicts = [...contests].map(([contest, people]): ContestVerdict => {
		const { outcome, votes, looks, wouldLook, decides } = people;
		const clauses = clausesOf(people.clauses);
		return {
			contest,
			outcome,
			votes,
			looks,
			wouldLook,
			by: clauses.some(({ then }) => then === 'machine') ? 'machine' : wouldLook ? 'people' : 'if-looked',
			clauses,
			...(decides === undefined ? {} : { decides }),
			get trace() {
				return people.trace;
			}
		};
	});
	return {
		rulebook,
		contests: verdicts,
		ballot: ballot.outcome,
		ballotClauses: clausesOf(ballot.clauses),
		key: JSON.stringify([ballot.outcome, verdicts.map(({ outcome, votes }) => [outcome, votes])])
	};
}

/** Verdicts that come to the same, together; the largest group first, and among equals the one met first. */
export function groupAlike(verdicts: readonly RulebookVerdict[]): readonly (readonly RulebookVerdict[])[] {
	const groups = new Map<string, RulebookVerdict[]>();
	for (const verdict of verdicts) {
		const group = groups.get(verdict.key);
		if (group) group.push(verdict);
		else groups.set(verdict.key, [verdict]);
	}
	// Sorting is stable, so groups of one size keep the order in which they were met.
	return [...groups.values()].sort((a, b) => b.length - a.length);
}

/**
 * One rulebook for each thing that rulebooks come to, largest group first: that of `kept` where the group has one, else
 * its first.
 */
export function oneOfEach(
	groups: readonly (readonly RulebookVerdict[])[],
	kept: readonly string[] = []
): readonly Rulebook[] {
	return groups.flatMap((group) => {
		const chosen = group.find(({ rulebook }) => kept.includes(rulebook.id)) ?? group[0];
		return chosen ? [chosen.rulebook] : [];
	});
}
