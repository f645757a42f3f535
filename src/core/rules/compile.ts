import type { MarkKind } from '../marks/mark';
import { compileMark, kindMask, TARGET_PLACES, type MarkTest } from './markFacts';
import { needsOf, type Needs } from './needs';
import type { Clause, Condition, MarkPattern, Rulebook } from './rule';
import { MARK_PLACES, type Operator, type Scope } from './vocabulary';

/** A condition made ready for the evaluator: its word, its parts, its lists as sets or masks. */
export interface Node {
	readonly op: Operator;
	readonly parts: readonly Node[];
	readonly mark: MarkTest;
	readonly words: readonly string[];
	/** Of `switch`: its name. Of `ballot`, `technique`, `ranked` and the like: the one word. */
	readonly name: string;
	readonly from: number;
	readonly below: number;
}

export interface CompiledClause {
	readonly clause: Clause;
	readonly when: Node;
	/** Of a choice clause: what a choice must hold for it to be tested there at all. */
	readonly needs: readonly Needs[];
	readonly prefer: Node | undefined;
	/** What it says, as one word: two clauses with the same word agree. */
	readonly result: string;
	/** Places in the list of the same scope of those that are exceptions to it; all stand before it. */
	readonly exceptions: readonly number[];
	/** Whether it names, or is named by, a clause that says otherwise. */
	readonly opposed: boolean;
	/** Rank events that its condition names. */
	readonly rankEvents: readonly string[];
	/** A list of this clause alone, as most decisions have it: made once. */
	readonly alone: readonly CompiledClause[];
}

export interface CompiledRulebook {
	readonly rulebook: Rulebook;
	readonly choice: readonly CompiledClause[];
	readonly contest: readonly CompiledClause[];
	readonly ballot: readonly CompiledClause[];
	readonly looksWhen: Node | undefined;
	/** Whether any ballot clause speaks of handwriting. */
	readonly speaksOfWriting: boolean;
}

const compiled = new WeakMap<Rulebook, CompiledRulebook>();

/**
 * A rulebook made ready, once for each rulebook. Clauses come out in the order of their ids with every
 * exception before what it excepts, whatever their order in the document. Throws a RangeError for
 * exceptions in a circle: `checkRulebook` finds those first.
 */
export function compile(rulebook: Rulebook): CompiledRulebook {
	const known = compiled.get(rulebook);
	if (known) return known;
	const ballot = compileScope(rulebook, 'ballot');
	const fresh: CompiledRulebook = {
		rulebook,
		choice: compileScope(rulebook, 'choice'),
		contest: compileScope(rulebook, 'contest'),
		ballot,
		looksWhen: rulebook.looksWhen && compileCondition(rulebook.looksWhen),
		speaksOfWriting: ballot.some(({ when }) => mentionsWriting(when))
	};
	compiled.set(rulebook, fresh);
	return fresh;
}

function compileScope({ clauses, id }: Rulebook, scope: Scope): readonly CompiledClause[] {
	const own = clauses.filter((clause) => clause.scope === scope);
	const sorted = exceptionsFirst(own, id);
	const placeOf = new Map(sorted.map((clause, place) => [clause.id, place]));
	const exceptions = sorted.map((): number[] => []);
	for (const clause of sorted)
		for (const weaker of clause.exceptionTo ?? []) {
			const place = placeOf.get(weaker);
			const by = placeOf.get(clause.id);
			if (place !== undefined && by !== undefined) exceptions[place]?.push(by);
		}
	return sorted.map((clause, place) => {
		const when = compileCondition(clause.when);
		const alone: CompiledClause[] = [];
		const one: CompiledClause = {
			clause,
			when,
			needs: scope === 'choice' ? needsOf(when) : [],
			prefer: typeof clause.then === 'object' ? compileCondition(clause.then.prefer) : undefined,
			result: typeof clause.then === 'object' ? 'prefer' : clause.then,
			exceptions: exceptions[place] ?? [],
			opposed:
				(clause.conflictsWith?.length ?? 0) > 0 || clauses.some((other) => other.conflictsWith?.includes(clause.id)),
			rankEvents: rankEventsOf(clause.when),
			alone
		};
		alone.push(one);
		return one;
	});
}

/** By id, each after the exceptions to it. */
function exceptionsFirst(clauses: readonly Clause[], rulebook: string): readonly Clause[] {
	const byId = [...clauses].sort((a, b) => (a.id < b.id ? -1 : a.id > b.id ? 1 : 0));
	const sorted: Clause[] = [];
	const state = new Map<Clause, 'open' | 'done'>();
	const visit = (clause: Clause): void => {
		if (state.get(clause) === 'done') return;
		if (state.get(clause) === 'open')
			throw new RangeError(
				`compile: expected exceptions without a circle in rulebook "${rulebook}", got one through "${clause.id}"; run checkRulebook on it`
			);
		state.set(clause, 'open');
		for (const stronger of byId) if (stronger.exceptionTo?.includes(clause.id)) visit(stronger);
		state.set(clause, 'done');
		sorted.push(clause);
	};
	for (const clause of byId) visit(clause);
	return sorted;
}

const NO_MARK: MarkTest = { kinds: 0, places: 0, says: undefined, touches: undefined };
const NOT_ON_A_LINE = MARK_PLACES.filter((place) => place !== 'write-in');
const EMPTY: Omit<Node, 'op'> = { parts: [], mark: NO_MARK, words: [], name: '', from: 0, below: Infinity };

export function compileCondition(condition: Condition): Node {
	const [op, value] = Object.entries(condition)[0] as [Operator, unknown];
	switch (op) {
		case 'all':
		case 'any':
			return { ...EMPTY, op, parts: (value as readonly Condition[]).map(compileCondition) };
		case 'not':
		case 'other':
		case 'everyOther':
		case 'someChoice':
		case 'voted':
		case 'someContest':
			return { ...EMPTY, op, parts: [compileCondition(value as Condition)] };
		case 'onBallot': {
			// A name on its line says nothing of who wrote it; whoever means the lines too names the place.
			const pattern = value as MarkPattern;
			return { ...EMPTY, op, mark: compileMark({ ...pattern, place: pattern.place ?? NOT_ON_A_LINE }) };
		}
		case 'mark':
		case 'inContest':
			return { ...EMPTY, op, mark: compileMark(value as MarkPattern) };
		case 'erased':
			return { ...EMPTY, op, mark: { ...NO_MARK, kinds: kindMask(['erasure']), places: TARGET_PLACES } };
		case 'target': {
			const { level, fillAtLeast, fillBelow } = value as Extract<Condition, { target: unknown }>['target'];
			return { ...EMPTY, op, words: wordsOf(level), from: fillAtLeast ?? 0, below: fillBelow ?? Infinity };
		}
		case 'switch': {
			const { name, is } = value as Extract<Condition, { switch: unknown }>['switch'];
			return { ...EMPTY, op, name, words: wordsOf(is) };
		}
		default: {
			const words = wordsOf(value as string | readonly string[] | true);
			return { ...EMPTY, op, words, name: words[0] ?? '' };
		}
	}
}

const wordsOf = (value: string | readonly string[] | true | undefined): readonly string[] =>
	value === undefined || value === true ? [] : typeof value === 'string' ? [value] : value;

function rankEventsOf(condition: Condition): readonly string[] {
	if ('ranked' in condition) return [condition.ranked];
	if ('all' in condition) return condition.all.flatMap(rankEventsOf);
	if ('any' in condition) return condition.any.flatMap(rankEventsOf);
	return [];
}

const WRITING = kindMask(['writing' satisfies MarkKind]);

function mentionsWriting({ op, mark, parts }: Node): boolean {
	if (op === 'onBallot') return mark.says !== undefined || (mark.kinds & WRITING) !== 0 || mark.kinds === 0;
	return parts.some(mentionsWriting);
}
