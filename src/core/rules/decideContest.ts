import type { PeopleOutcome } from '../reading/statement';
import type { CompiledClause } from './compile';
import { MADE_KINDS } from './markFacts';
import { decideRanking } from './decideRanking';
import type { CellDecision } from './decideChoices';
import type { ChoiceFacts, ContestFacts } from './facts';
import type { Place, Tally } from './place';
import { testCondition } from './testCondition';
import { NO, UNSURE, YES, type Truth } from './truth';
import { NOTHING_MET, weigh, type Weighed } from './weigh';

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
	const spoken: Spoken = { decisions, contest, at };
	const weighed = weigh(clauses, at, undefined, choosing(spoken));
	const base =
		contest.kind === 'ranked'
			? decideRanking(clauses, weighed, decisions, tally)
			: fromChoices(decisions, contest, tally);
	if (weighed === NOTHING_MET) return { ...base, weighed };
	const sure = speaking(clauses, weighed, YES);
	const unsure = speaking(clauses, weighed, UNSURE);
	const settled = agree(sure, base, spoken);
	const open = unsure.length === 0 ? NONE : differing(unsure, settled, base, spoken);
	const verdict = open.length > 0 && settled.outcome !== 'refer' ? refer([...settled.clauses, ...open]) : settled;
	return { ...contradicted(verdict, sure, decisions), weighed };
}

const NONE: readonly CompiledClause[] = [];

/** Clauses by which something else would come of the contest. */
function differing(
	clauses: readonly CompiledClause[],
	settled: Verdict,
	base: Verdict,
	spoken: Spoken
): readonly CompiledClause[] {
	const key = keyOf(settled);
	return clauses.filter((clause) => keyOf(verdictOf(clause, base, spoken)) !== key);
}

/** What a contest clause speaks of. */
interface Spoken {
	readonly decisions: readonly CellDecision[];
	readonly contest: ContestFacts;
	readonly at: Place;
}

/** Clauses of a ranking speak of its steps, in `decideRanking`; the rest of the contest as a whole. */
function speaking(clauses: readonly CompiledClause[], { active }: Weighed, held: Truth): readonly CompiledClause[] {
	let found = NONE;
	for (let i = 0; i < clauses.length; i++) {
		const clause = clauses[i];
		if (!clause || active[i] !== held || clause.result === 'stop-ranking' || clause.result === 'pass-rank') continue;
		found = found.length === 0 ? clause.alone : [...found, clause];
	}
	return found;
}

const keyOf = ({ outcome, votes }: Verdict): string => [outcome, ...votes].join('\n');

const refer = (clauses: readonly CompiledClause[]): Verdict => ({ outcome: 'refer', votes: [], clauses });

function agree(sure: readonly CompiledClause[], base: Verdict, spoken: Spoken): Verdict {
	const [first] = sure;
	if (!first) return base;
	const verdict = verdictOf(first, base, spoken);
	if (sure.length > 1 && differing(sure, verdict, base, spoken).length > 0)
		return refer([...sure, ...(sure.some(({ result }) => result === 'vote') ? base.clauses : [])]);
	const { outcome, votes } = verdict;
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

/** A `prefer` clause applies only where there are choices that it can prefer. */
function choosing(spoken: Spoken): (clause: CompiledClause) => Truth {
	return (clause) => (clause.prefer ? choose(clause, spoken).truth : YES);
}

interface Chosen {
	readonly truth: Truth;
	readonly votes: readonly string[];
}

/** The votes that a `prefer` clause would keep: some, and no more than allowed. */
function choose({ prefer }: CompiledClause, { decisions, contest: { voteFor }, at }: Spoken): Chosen {
	const voted = decisions.filter(({ result }) => result === 'vote');
	const found = prefer ? voted.map(({ cell }) => testCondition(prefer, at, cell)) : [];
	const votes = voted.filter((_, i) => found[i] === YES).map(({ cell }) => cell.id);
	const open = found.filter((one) => one === UNSURE).length;
	if (open === 0) return { truth: votes.length > 0 && votes.length <= voteFor ? YES : NO, votes };
	return { truth: votes.length > voteFor ? NO : UNSURE, votes };
}

function verdictOf(clause: CompiledClause, base: Verdict, spoken: Spoken): Verdict {
	const result = clause.result as 'prefer' | 'vote' | 'machine' | Exclude<PeopleOutcome, 'vote'>;
	const clauses = clause.alone;
	if (result === 'vote') return base;
	if (result === 'prefer') return { outcome: 'vote', votes: choose(clause, spoken).votes, clauses };
	if (result !== 'machine') return { outcome: result, votes: [], clauses };
	return fromMachine(spoken.contest, clauses);
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
	if (tally.open > 0) return refer(clausesOf(decisions.filter(({ result }) => result === 'open')));
	if (tally.votes > voteFor || isSilent(decisions)) return SILENT;
	if (tally.votes === 0) return withoutVotes(decisions, loose.some(isMade));
	const votes: string[] = [];
	const clauses: CompiledClause[] = [];
	for (const { cell, result, clauses: deciding } of decisions) {
		if (result === 'vote') votes.push(cell.id);
		// What says of an untouched choice that it is no vote explains nothing; what says it of one rubbed out does.
		if (result === 'vote' || (result === 'no-vote' && wasMarked(cell))) clauses.push(...deciding);
	}
	return { outcome: 'vote', votes, clauses };
}

const SILENT: Verdict = { outcome: 'silent', votes: [], clauses: NONE };

/** Of some choice that might be voted for no clause speaks. */
function isSilent(decisions: readonly CellDecision[]): boolean {
	for (const { result, cell } of decisions) if (result === 'none' && cell.possible) return true;
	return false;
}

const wasMarked = ({ possible, marks }: ChoiceFacts): boolean =>
	possible || marks.some(({ kind }) => kind === 'erasure');

export const clausesOf = (decisions: readonly CellDecision[]): readonly CompiledClause[] =>
	decisions.flatMap(({ clauses }) => clauses);

const isMade = ({ kindBit }: { readonly kindBit: number }): boolean => (kindBit & MADE_KINDS) !== 0;

function withoutVotes(decisions: readonly CellDecision[], isNoted: boolean): Verdict {
	const marked = decisions.filter(({ cell }) => cell.marks.some(isMade) || cell.strikes.length > 0);
	if (isNoted || marked.some(({ result }) => result === 'none')) return { outcome: 'silent', votes: [], clauses: [] };
	const refused = decisions.filter(({ result }) => result === 'no-vote');
	if (refused.length === 0) return { outcome: 'blank', votes: [], clauses: [] };
	return { outcome: 'no-vote', votes: [], clauses: clausesOf(refused) };
}
