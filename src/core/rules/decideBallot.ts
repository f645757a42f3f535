import { once } from '../once';
import type { BallotStatement, TraceStep } from '../reading/statement';
import type { CompiledClause, CompiledRulebook } from './compile';
import type { BallotFacts } from './facts';
import { kindMask, MADE_KINDS, placeMask } from './markFacts';
import type { Place } from './place';
import { steps } from './traceSteps';
import { NO, UNSURE, YES } from './truth';
import { weigh } from './weigh';

/** What ballot clauses do to contests of parties. `open`: clauses disagree or a person must settle something. */
export interface PartyRule {
	readonly effect: 'none' | 'void-partisan' | 'prefer-party' | 'open';
	readonly clauses: readonly CompiledClause[];
}

export interface BallotDecision {
	readonly outcome: BallotStatement['outcome'];
	readonly clauses: readonly CompiledClause[];
	readonly party: PartyRule;
	/** Every ballot clause that applies, whatever came of it. */
	readonly sure: readonly CompiledClause[];
	readonly trace: () => readonly TraceStep[];
}

const PARTY_RESULTS: readonly string[] = ['void-partisan', 'prefer-party'];

/** The whole sheet by the ballot clauses: its own fate, and what becomes of the contests of parties. */
export function decideBallot({ ballot: clauses, speaksOfWriting }: CompiledRulebook, at: Place): BallotDecision {
	const weighed = weigh(clauses, at, undefined);
	const sure = clauses.filter((_, i) => weighed.active[i] === YES);
	const open = clauses.filter((_, i) => weighed.active[i] === UNSURE);
	const isParty = ({ result }: CompiledClause): boolean => PARTY_RESULTS.includes(result);
	const party = settle(sure.filter(isParty), open.filter(isParty), 'none');
	// That a sheet may stand by a clause or without one comes to the same, unless a person must read a note first.
	const isIdle = ({ result }: CompiledClause): boolean => result === 'stands' && !hasNote(at.ballot);
	const fate = settle(
		sure.filter((one) => !isParty(one)),
		open.filter((one) => !isParty(one) && !isIdle(one)),
		'none'
	);
	const silent = fate.result === 'none' && !speaksOfWriting && hasNote(at.ballot);
	const outcome = fate.result === 'stands' ? 'none' : fate.result === 'open' ? 'refer' : fate.result;
	return {
		// A sheet of which a page was not seen is not settled where what becomes of its parties is not.
		outcome: silent
			? 'silent'
			: outcome === 'none' && party.result === 'open'
				? 'refer'
				: (outcome as BallotStatement['outcome']),
		clauses: [...fate.clauses, ...party.clauses],
		party: { effect: party.result as PartyRule['effect'], clauses: party.clauses },
		sure,
		trace: once(() => steps(clauses, weighed, at))
	};
}

function settle(
	sure: readonly CompiledClause[],
	open: readonly CompiledClause[],
	nothing: string
): { readonly result: string; readonly clauses: readonly CompiledClause[] } {
	const results = new Set(sure.map(({ result }) => result));
	const against = open.filter(({ result }) => !results.has(result));
	const [result] = results;
	if (result === undefined && against.length === 0) return { result: nothing, clauses: [] };
	if (results.size === 1 && against.length === 0 && result !== undefined && result !== 'refer')
		return { result, clauses: sure };
	return { result: 'open', clauses: [...sure, ...against] };
}

const WRITING = kindMask(['writing']);
const OUTSIDE = placeMask(['heading', 'margin']);

/** Handwriting that belongs to no choice: it may say who the voter is. */
const hasNote = ({ marks }: BallotFacts): boolean =>
	marks.some(({ kindBit, placeBit }) => (kindBit & MADE_KINDS & WRITING) !== NO && (placeBit & OUTSIDE) !== 0);
