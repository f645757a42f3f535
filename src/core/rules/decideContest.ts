import type { PeopleOutcome } from '../reading/statement';
import type { CompiledClause } from './compile';
import { MADE_KINDS } from './markFacts';
import { decideRanking } from './decideRanking';
import type { CellDecision } from './decideChoices';
import type { ContestFacts } from './facts';
import type { Place, Tally } from './place';
import { testCondition } from './testCondition';
import { NO, UNSURE, YES, type Truth } from './truth';
import { weigh, type Weighed } from './weigh';

/** What comes of one contest, and by which clauses. */
export interface Verdict {
	readonly outcome: PeopleOutcome;
	readonly votes: readonly string[];
	readonly clauses: readonly CompiledClause[];
}

export interface ContestDecision extends Verdict {
	readonly weighed: Weighed;
}

/**
 * A contest from what its choices came to, by the contest clauses. A contest clause speaks of the whole
 * and so goes before what the choices come to; two that disagree, with no exception between them, refer.
 */
export function decideContest(
	clauses: readonly CompiledClause[],
	decisions: readonly CellDecision[],
	contest: ContestFacts,
	tally: Tally,
	at: Place
): ContestDecision {
	const chosen = (clause: CompiledClause): Chosen => choose(clause, decisions, contest, at);
	const weighed = weigh(clauses, at, undefined, (clause) => (clause.prefer ? chosen(clause).truth : YES));
	const base =
		contest.kind === 'ranked'
			? decideRanking(clauses, weighed, decisions, tally)
			: fromChoices(decisions, contest, tally);
	const say = (clause: CompiledClause): Verdict => verdictOf(clause, base, contest, chosen);
	const speaking = clauses.filter(({ result }) => result !== 'stop-ranking' && result !== 'pass-rank');
	const activeOf = (clause: CompiledClause): Truth => weighed.active[clauses.indexOf(clause)] ?? NO;
	const sure = speaking.filter((clause) => activeOf(clause) === YES);
	const settled = agree(sure, base, say);
	const open = speaking.filter((clause) => activeOf(clause) === UNSURE && keyOf(say(clause)) !== keyOf(settled));
	const verdict = open.length > 0 && settled.outcome !== 'refer' ? refer([...settled.clauses, ...open]) : settled;
	return { ...contradicted(verdict, sure, decisions), weighed };
}

const keyOf = ({ outcome, votes }: Verdict): string => [outcome, ...votes].join('\n');

const refer = (clauses: readonly CompiledClause[]): Verdict => ({ outcome: 'refer', votes: [], clauses });

function agree(sure: readonly CompiledClause[], base: Verdict, say: (clause: CompiledClause) => Verdict): Verdict {
	const [first] = sure;
	if (!first) return base;
	if (new Set(sure.map((clause) => keyOf(say(clause)))).size > 1)
		return refer([...sure, ...(sure.some(({ result }) => result === 'vote') ? base.clauses : [])]);
	const { outcome, votes } = say(first);
	const isBase = sure.some(({ result }) => result === 'vote');
	// That what is marked stands does not settle what the choices left open.
	if (isBase && (outcome === 'silent' || outcome === 'blank')) return base;
	return { outcome, votes, clauses: isBase ? [...base.clauses, ...sure] : sure };
}

/** Clauses that are named as saying otherwise, with nothing to tell which wins. */
function contradicted(verdict: Verdict, sure: readonly CompiledClause[], decisions: readonly CellDecision[]): Verdict {
	if (!sure.some(({ opposed }) => opposed)) return verdict;
	const below = new Map(
		decisions.flatMap(({ clauses, result }) =>
			result === 'none' ? [] : clauses.map((one) => [one.clause.id, one] as const)
		)
	);
	const against = sure.flatMap((clause) =>
		[...below.values()].filter((one) => areOpposed(clause, one)).flatMap((one) => [clause, one])
	);
	return against.length > 0 ? refer([...verdict.clauses, ...against]) : verdict;
}

export const areOpposed = ({ clause: a }: CompiledClause, { clause: b }: CompiledClause): boolean =>
	a.conflictsWith?.includes(b.id) === true || b.conflictsWith?.includes(a.id) === true;

interface Chosen {
	readonly truth: Truth;
	readonly votes: readonly string[];
}

/** The votes that a `prefer` clause would keep: some, and no more than allowed. */
function choose(
	{ prefer }: CompiledClause,
	decisions: readonly CellDecision[],
	{ voteFor }: ContestFacts,
	at: Place
): Chosen {
	const voted = decisions.filter(({ result }) => result === 'vote');
	const found = prefer ? voted.map(({ cell }) => testCondition(prefer, at, cell)) : [];
	const votes = voted.filter((_, i) => found[i] === YES).map(({ cell }) => cell.id);
	const open = found.filter((one) => one === UNSURE).length;
	const fits = (count: number): boolean => count > 0 && count <= voteFor;
	if (open === 0) return { truth: fits(votes.length) ? YES : NO, votes };
	return { truth: votes.length > voteFor ? NO : UNSURE, votes };
}

function verdictOf(
	clause: CompiledClause,
	base: Verdict,
	contest: ContestFacts,
	chosen: (clause: CompiledClause) => Chosen
): Verdict {
	const result = clause.result as 'prefer' | 'vote' | 'machine' | Exclude<PeopleOutcome, 'vote'>;
	const clauses = [clause];
	if (result === 'vote') return base;
	if (result === 'prefer') return { outcome: 'vote', votes: chosen(clause).votes, clauses };
	if (result !== 'machine') return { outcome: result, votes: [], clauses };
	return fromMachine(contest, clauses);
}

/** What the machine read stands. Marks that it does not see are marks all the same: none of them is accepted. */
function fromMachine({ machine, choices }: ContestFacts, clauses: readonly CompiledClause[]): Verdict {
	switch (machine.state) {
		case 'unsure':
			return refer(clauses);
		case 'read':
		case 'undervote':
			return { outcome: 'vote', votes: machine.votes, clauses };
		case 'blank':
			return { outcome: choices.some(({ marks }) => marks.some(isMade)) ? 'no-vote' : 'blank', votes: [], clauses };
		case 'overvote':
			return { outcome: 'overvote', votes: [], clauses };
	}
}

/** What the choices come to by themselves. */
function fromChoices(decisions: readonly CellDecision[], { voteFor, loose }: ContestFacts, tally: Tally): Verdict {
	const inOrder = (kept: readonly CellDecision[]): readonly CompiledClause[] => kept.flatMap(({ clauses }) => clauses);
	if (tally.open > 0) return refer(inOrder(decisions.filter(({ result }) => result === 'open')));
	const silent = decisions.some(({ result, cell }) => result === 'none' && cell.possible);
	if (silent || tally.votes > voteFor) return { outcome: 'silent', votes: [], clauses: [] };
	if (tally.votes > 0) {
		const votes = decisions.filter(({ result }) => result === 'vote').map(({ cell }) => cell.id);
		const spoken = decisions.filter(({ result, cell }) => result === 'vote' || (result === 'no-vote' && cell.possible));
		return { outcome: 'vote', votes, clauses: inOrder(spoken) };
	}
	return withoutVotes(decisions, loose.some(isMade), inOrder);
}

const isMade = ({ kindBit }: { readonly kindBit: number }): boolean => (kindBit & MADE_KINDS) !== 0;

function withoutVotes(
	decisions: readonly CellDecision[],
	isNoted: boolean,
	inOrder: (kept: readonly CellDecision[]) => readonly CompiledClause[]
): Verdict {
	const marked = decisions.filter(({ cell }) => cell.marks.some(isMade) || cell.strikes.length > 0);
	if (isNoted || marked.some(({ result }) => result === 'none')) return { outcome: 'silent', votes: [], clauses: [] };
	const refused = decisions.filter(({ result }) => result === 'no-vote');
	if (refused.length === 0) return { outcome: 'blank', votes: [], clauses: [] };
	return { outcome: 'no-vote', votes: [], clauses: inOrder(refused) };
}
