import type { CompiledClause } from './compile';
import type { CellDecision } from './decideChoices';
import { clausesOf, type Verdict } from './decideContest';
import type { Tally } from './place';
import { stepsOf } from './ranking';
import { NO, YES } from './truth';
import type { Weighed } from './weigh';

/**
 * A ranking read from the first rank up, until a clause stops it. Whatever is out of order needs a clause
 * that says `stop-ranking` or `pass-rank`; where none does, the rulebook is silent. An overvote before
 * any choice is read is an overvote of the contest.
 */
export function decideRanking(
	clauses: readonly CompiledClause[],
	{ active }: Weighed,
	decisions: readonly CellDecision[],
	tally: Tally
): Verdict {
	if (tally.open > 0)
		return { outcome: 'refer', votes: [], clauses: clausesOf(decisions.filter(({ result }) => result === 'open')) };
	if (decisions.some(({ result, cell }) => result === 'none' && cell.possible))
		return { outcome: 'silent', votes: [], clauses: [] };
	const cited = [...clausesOf(decisions.filter(({ result }) => result === 'vote'))];
	const votes: string[] = [];
	for (const { events, choice } of stepsOf(decisions)) {
		for (const event of events) {
			const speaking = clauses.filter(({ rankEvents, result }, i) => {
				const ranks = result === 'stop-ranking' || result === 'pass-rank';
				return ranks && rankEvents.includes(event) && active[i] !== NO;
			});
			const results = new Set(speaking.map(({ result }) => result));
			if (speaking.length === 0) return { outcome: 'silent', votes: [], clauses: [] };
			if (results.size > 1 || speaking.some((clause) => active[clauses.indexOf(clause)] !== YES))
				return { outcome: 'refer', votes: [], clauses: speaking };
			cited.push(...speaking);
			if (results.has('stop-ranking')) return stopped(votes, event, cited, speaking);
		}
		if (choice !== undefined && !votes.includes(choice)) votes.push(choice);
	}
	if (votes.length > 0) return { outcome: 'vote', votes, clauses: cited };
	const refused = decisions.filter(({ result }) => result === 'no-vote');
	return { outcome: refused.length > 0 ? 'no-vote' : 'blank', votes, clauses: clausesOf(refused) };
}

function stopped(
	votes: readonly string[],
	event: string,
	cited: readonly CompiledClause[],
	speaking: readonly CompiledClause[]
): Verdict {
	if (votes.length > 0) return { outcome: 'vote', votes, clauses: cited };
	return { outcome: event === 'same-rank' ? 'overvote' : 'no-vote', votes: [], clauses: speaking };
}
