import { once } from '../once';
import type { BallotStatement, ClauseReference, PeopleStatement } from '../reading/statement';
import { compile, type CompiledClause, type CompiledRulebook } from './compile';
import { decideBallot, type BallotDecision } from './decideBallot';
import { decideChoices, type CellDecision } from './decideChoices';
import { areOpposed, decideContest, type ContestDecision } from './decideContest';
import type { BallotFacts, ContestFacts } from './facts';
import type { Place, Tally } from './place';
import { stepsOf } from './ranking';
import type { Decides, Rulebook } from './rule';
import { testCondition } from './testCondition';
import { choiceSteps, steps } from './traceSteps';
import { NO } from './truth';

/** What people would decide under one rulebook: on each contest seen, and on the sheet as a whole. */
export interface PeopleDecision {
	readonly contests: ReadonlyMap<string, PeopleStatement>;
	readonly ballot: BallotStatement;
}

/** One contest, decided. */
interface Decided {
	readonly contest: ContestFacts;
	readonly looked: boolean;
	readonly tally: Tally;
	readonly choices: readonly CellDecision[];
	readonly decision: ContestDecision;
	readonly at: Place;
}

/**
 * Decides a ballot under a rulebook: choices first, then contests, then the whole sheet. The order of
 * clauses, contests and choices has no influence. A trace is made when it is first read: side by side, only
 * outcomes are. Pure. Throws a RangeError for a rulebook whose
 * exceptions run in a circle, which `checkRulebook` refuses; never for any set of marks.
 */
export function evaluate(rulebook: Rulebook, ballot: BallotFacts): PeopleDecision {
	const book = compile(rulebook);
	const start: Place = { rulebook, ballot, contest: undefined, tally: undefined, looked: true, decided: [] };
	const decided = ballot.contests.map((contest) => decideOne(book, contest, start));
	const sheet = decideBallot(book, { ...start, decided });
	const opposed = decided.map((one) => opposedBy(one, sheet));
	const allOpposed = opposed.flat();
	const preferred = preferredParty(decided);
	return {
		contests: new Map(
			decided.map((one, i) => {
				const verdict = onSheet(one, sheet, opposed[i] ?? NO_CLAUSES, allOpposed, preferred);
				return [one.contest.id, peopleStatement(book, one, sheet, verdict)];
			})
		),
		ballot: ballotStatement(rulebook, sheet, allOpposed)
	};
}

function decideOne(book: CompiledRulebook, contest: ContestFacts, { rulebook, ballot, decided }: Place): Decided {
	const early: Place = { rulebook, ballot, contest, tally: undefined, looked: true, decided };
	const looked = wouldLook(book, contest, early);
	const before = looked ? early : { rulebook, ballot, contest, tally: undefined, looked, decided };
	const choices = decideChoices(book.choice, contest, before);
	const tally = tallyOf(contest, choices);
	const at: Place = { rulebook, ballot, contest, tally, looked, decided };
	return { contest, looked, tally, choices, decision: decideContest(book.contest, choices, contest, tally, at), at };
}

/** Whether people would look at a contest, given what the machine saw. Where it is not settled they do. */
function wouldLook({ rulebook, looksWhen }: CompiledRulebook, contest: ContestFacts, at: Place): boolean {
	const { state } = contest.machine;
	switch (rulebook.looks) {
		case 'always':
			return true;
		case 'never':
			return false;
		default:
			if (looksWhen) return testCondition(looksWhen, at, undefined) !== NO;
			if (rulebook.looks === 'over-or-under') return state !== 'read';
			return state === 'overvote' || state === 'unsure' || state === 'blank' || isWrittenOn(contest);
	}
}

const isWrittenOn = ({ choices }: ContestFacts): boolean =>
	choices.some(({ kind, marks }) => kind === 'write-in' && marks.some(({ handwriting }) => handwriting));

function tallyOf({ kind }: ContestFacts, choices: readonly CellDecision[]): Tally {
	let votes = 0;
	let open = 0;
	for (const { result } of choices) {
		if (result === 'vote') votes++;
		else if (result === 'open') open++;
	}
	const rankEvents = kind === 'ranked' ? [...new Set(stepsOf(choices).flatMap(({ events }) => events))] : NO_EVENTS;
	return { choices, votes, open, rankEvents };
}

const NO_EVENTS: readonly string[] = [];

/** Clauses of a contest and of the sheet that are named as saying otherwise. */
function opposedBy({ choices, decision }: Decided, { sure }: BallotDecision): readonly CompiledClause[] {
	if (!sure.some(({ opposed }) => opposed)) return NO_CLAUSES;
	const applied = new Set([...choices.flatMap(({ clauses }) => clauses), ...decision.clauses]);
	return sure.flatMap((one) => [...applied].filter((other) => areOpposed(one, other)).flatMap((other) => [one, other]));
}

const NO_CLAUSES: readonly CompiledClause[] = [];

/** The party of the one choice marked in the contest that asks for it. */
function preferredParty(decided: readonly Decided[]): string | undefined {
	const asked = decided.find(({ contest }) => contest.kind === 'party-preference');
	return asked?.choices.find(({ result }) => result === 'vote')?.cell.party;
}

type Verdict = Pick<ContestDecision, 'outcome' | 'votes' | 'clauses'>;

/** What becomes of a contest once the whole sheet is decided. */
function onSheet(
	{ contest, decision }: Decided,
	{ outcome, clauses, party }: BallotDecision,
	opposed: readonly CompiledClause[],
	opposedElsewhere: readonly CompiledClause[],
	preferred: string | undefined
): Verdict {
	if (opposed.length > 0) return { outcome: 'refer', votes: [], clauses: opposed };
	// What would void the sheet is contradicted in another contest: then nothing on the sheet is settled.
	const unsettled = opposedElsewhere.filter(({ result }) => result === outcome);
	if (outcome === 'void-ballot' && unsettled.length > 0) return { outcome: 'refer', votes: [], clauses: unsettled };
	if (outcome === 'void-ballot')
		return { outcome, votes: [], clauses: clauses.filter(({ result }) => result === 'void-ballot') };
	if (contest.party === undefined || party.effect === 'none' || decision.outcome === 'blank') return decision;
	if (party.effect === 'open') return { outcome: 'refer', votes: [], clauses: party.clauses };
	if (party.effect === 'void-partisan') return { outcome: 'void-contest', votes: [], clauses: party.clauses };
	if (preferred === undefined) return { outcome: 'refer', votes: [], clauses: party.clauses };
	return preferred === contest.party ? decision : { outcome: 'no-vote', votes: [], clauses: party.clauses };
}

function peopleStatement(
	{ rulebook, choice, contest: clauses }: CompiledRulebook,
	{ choices, decision, looked, at }: Decided,
	sheet: BallotDecision,
	{ outcome, votes, clauses: deciding }: Verdict
): PeopleStatement {
	const trace = once(() => {
		const ids = new Set(deciding.map(({ clause }) => clause.id));
		const ofSheet = sheet.trace().filter((step) => step.result !== 'not-met' && ids.has(step.clause));
		return [...choiceSteps(choice, choices, at), ...steps(clauses, decision.weighed, at), ...ofSheet];
	});
	return {
		outcome,
		votes,
		looks: rulebook.looks,
		wouldLook: looked,
		clauses: references(deciding),
		...howOf(deciding, outcome === 'refer', rulebook),
		get trace() {
			return trace();
		}
	};
}

function ballotStatement(
	rulebook: Rulebook,
	{ outcome, clauses, trace }: BallotDecision,
	opposed: readonly CompiledClause[]
): BallotStatement {
	const deciding = [...clauses, ...opposed];
	const said = opposed.length > 0 ? 'refer' : outcome;
	return {
		outcome: said,
		clauses: references(deciding),
		...howOf(deciding, said === 'refer', rulebook),
		get trace() {
			return trace();
		}
	};
}

/** Each clause once, by id. */
function references(clauses: readonly CompiledClause[]): readonly ClauseReference[] {
	if (clauses.length < 2) return clauses.map(({ clause: { id, cite } }) => ({ id, cite }));
	const byId = new Map(clauses.map(({ clause: { id, cite } }) => [id, { id, cite }]));
	return [...byId.values()].sort((a, b) => (a.id < b.id ? -1 : 1));
}

/** How people settle it: as the deciding clauses say, where they agree; else as the rulebook says of all that is referred. */
function howOf(
	clauses: readonly CompiledClause[],
	referred: boolean,
	rulebook: Rulebook
): { readonly decides?: Decides } {
	let one: Decides | undefined;
	for (const { clause } of clauses) {
		if (clause.decides === undefined) continue;
		if (one !== undefined && one !== clause.decides) return {};
		one = clause.decides;
	}
	const decides = one ?? (referred ? rulebook.decides?.how : undefined);
	return decides === undefined ? {} : { decides };
}
