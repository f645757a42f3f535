import type { TraceStep } from '../reading/statement';
import type { CompiledClause, Node } from './compile';
import type { CellDecision } from './decideChoices';
import { testMark, type MarkFact } from './markFacts';
import { missingPart } from './missingPart';
import type { Cell, Place } from './place';
import { NO, UNSURE, YES } from './truth';
import type { Weighed } from './weigh';

const NO_MARKS: readonly string[] = [];
const NO_VALUES: TraceStep['values'] = {};

/**
 * What came of the choice clauses, choice by choice: each that applied or might, was overridden, or was
 * looked at and not met. At a choice without any mark only those that applied are told.
 */
export function choiceSteps(
	clauses: readonly CompiledClause[],
	decisions: readonly CellDecision[],
	at: Place
): readonly TraceStep[] {
	const steps: TraceStep[] = [];
	for (const { cell, weighed } of decisions) {
		const all = cell.marks.length > 0 || cell.strikes.length > 0 || cell.level !== 'empty';
		pushSteps(steps, clauses, weighed, at, cell, all);
	}
	return steps;
}

/** What came of the clauses of a contest or of the ballot. */
export function steps(clauses: readonly CompiledClause[], weighed: Weighed, at: Place): readonly TraceStep[] {
	const found: TraceStep[] = [];
	pushSteps(found, clauses, weighed, at, undefined, true);
	return found;
}

function pushSteps(
	found: TraceStep[],
	clauses: readonly CompiledClause[],
	{ met, active }: Weighed,
	at: Place,
	cell: Cell,
	all: boolean
): void {
	for (let i = 0; i < clauses.length; i++) {
		const one = clauses[i];
		if (!one) continue;
		const held = met[i] ?? NO;
		if (held === NO && !all) continue;
		found.push(held === NO ? notMet(one, at, cell) : metStep(one, i, clauses, { met, active }, at, cell));
	}
}

function notMet({ clause: { id, cite }, when, prefer }: CompiledClause, at: Place, cell: Cell): TraceStep {
	const missing = missingPart(when, at, cell);
	const step = {
		clause: id,
		cite,
		result: 'not-met',
		marks: NO_MARKS,
		missing: prefer && missing === when.op ? 'prefer' : missing,
		values: NO_VALUES
	} as const;
	return cell === undefined ? step : { ...step, choice: cell.id };
}

function metStep(
	one: CompiledClause,
	place: number,
	clauses: readonly CompiledClause[],
	{ met, active }: Weighed,
	at: Place,
	cell: Cell
): TraceStep {
	const applies = active[place] ?? NO;
	const by = applies === YES ? undefined : one.exceptions.find((exception) => active[exception] !== NO);
	const exception = by === undefined ? undefined : clauses[by]?.clause.id;
	const unsure = applies === UNSURE;
	return {
		clause: one.clause.id,
		cite: one.clause.cite,
		result: applies === YES ? 'applied' : unsure ? 'unsure' : 'overridden',
		...(exception === undefined ? {} : { by: exception }),
		...(cell === undefined ? {} : { choice: cell.id }),
		marks: marksOf(one.when, at, cell),
		...(unsure && met[place] === UNSURE ? { missing: missingPart(one.when, at, cell) } : {}),
		values: valuesOf(one, at, cell)
	};
}

/** Ids of the marks that a condition took hold of. */
function marksOf(when: Node, at: Place, cell: Cell): readonly string[] {
	const ids = new Set<string>();
	collect(when, at, cell, ids);
	return [...ids];
}

function collect(node: Node, at: Place, cell: Cell, ids: Set<string>): void {
	const { op, mark, parts } = node;
	if (op === 'not') return;
	for (const part of parts)
		if (op === 'all' || op === 'any') collect(part, at, cell, ids);
		else for (const other of cellsFor(op, at, cell)) collect(part, at, other, ids);
	for (const one of marksFor(op, at, cell)) if (testMark(mark, one) !== NO) ids.add(one.id);
	if (cell && (op === 'struck' || op === 'supported' || op === 'written'))
		for (const one of [...cell.marks, ...cell.strikes]) if (isOf(op, one)) ids.add(one.id);
}

function cellsFor(op: Node['op'], { contest }: Place, cell: Cell): readonly Cell[] {
	if (op === 'other' || op === 'everyOther') return (contest?.choices ?? []).filter(({ id }) => id !== cell?.id);
	return op === 'someChoice' || op === 'voted' ? (contest?.choices ?? []) : [];
}

function marksFor(op: Node['op'], { contest, ballot }: Place, cell: Cell): readonly MarkFact[] {
	if (op === 'mark' || op === 'erased') return cell?.marks ?? [];
	if (op === 'onBallot') return ballot.marks;
	return op === 'inContest' && contest ? [...contest.choices.flatMap(({ marks }) => marks), ...contest.loose] : [];
}

function isOf(op: 'struck' | 'supported' | 'written', { kind, place, handwriting }: MarkFact): boolean {
	if (op === 'written') return handwriting && place === 'write-in';
	if (op === 'struck') return kind === 'strike' || (place === 'on-name' && (kind === 'scribble' || kind === 'cross'));
	return place !== 'in-target' && place !== 'write-in';
}

/** The measures and settings that a condition asks about. */
function valuesOf({ when, rankEvents }: CompiledClause, at: Place, cell: Cell): TraceStep['values'] {
	const values: Record<string, string | number | boolean> = {};
	const visit = ({ op, name, parts }: Node): void => {
		if (op === 'target' && cell) Object.assign(values, { fill: cell.fill, level: cell.level });
		if (op === 'machine' && at.contest) values['machine'] = at.contest.machine.state;
		if (op === 'votes' && at.contest && at.tally)
			Object.assign(values, { votes: at.tally.votes, voteFor: at.contest.voteFor });
		if (op === 'switch') values[name] = at.rulebook.switches?.[name as keyof typeof at.rulebook.switches] ?? '';
		if (op === 'channel') values['channel'] = at.ballot.told.channel ?? at.rulebook.assumes?.channel ?? 'unknown';
		if (op === 'count') values['count'] = at.ballot.told.count ?? at.rulebook.assumes?.count ?? 'unknown';
		parts.forEach(visit);
	};
	visit(when);
	if (rankEvents.length > 0 && at.tally) values['ranks'] = at.tally.rankEvents.join(' ');
	return values;
}
