import { flag, list, number, object, oneOf, type Fields } from '../election/fields';
import { at, describe, type Report } from '../election/report';
import { SWITCHES, type SwitchName } from './switches';
import {
	BALLOT_FACTS,
	CHANNELS,
	CHOICE_KINDS,
	CONTEST_KINDS,
	COUNTS,
	LATE_BALLOT_FACTS,
	LEVELS,
	MACHINE_STATES,
	MARK_KINDS,
	MARK_PLACES,
	OPERATORS,
	RANK_EVENTS,
	SAYINGS,
	SHAPES,
	TECHNIQUES,
	VOTE_COUNTS,
	type Operator,
	type Scope
} from './vocabulary';

/** Deepest nesting; found by trial: a condition that a person can read has four or five levels. */
const DEEPEST = 12;

interface Stage {
	/** Tested before the choices are decided: what is known only afterwards may not be asked. */
	readonly early: boolean;
	readonly depth?: number;
}

const LATE: readonly Operator[] = ['votes', 'voted', 'ranked', 'someContest'];

/** One condition of the pattern language, with everything in it. */
export function checkCondition(report: Report, value: unknown, path: string, scope: Scope, stage: Stage): void {
	const condition = object(report, value, path);
	if (!condition) return;
	const names = Object.keys(condition);
	const [name] = names;
	if (names.length !== 1 || name === undefined) {
		report.add(path, 'a condition with exactly one word', names.join(', ') || {}, 'Put several into "all" or "any".');
		return;
	}
	const depth = stage.depth ?? 0;
	if (depth > DEEPEST) {
		report.add(path, `at most ${DEEPEST} conditions inside each other`, value, 'Write it as several clauses.');
		return;
	}
	if (!Object.hasOwn(OPERATORS, name)) {
		report.add(at(path, name), 'a word of the pattern language', name, `The words are ${wordsIn(scope).join(', ')}.`);
		return;
	}
	const op = name as Operator;
	if (!isAllowed(op, scope) || (stage.early && LATE.includes(op))) {
		report.add(at(path, op), `a word for ${scope} clauses`, op, `Here the words are ${wordsIn(scope).join(', ')}.`);
		return;
	}
	checkValue(report, condition[op], at(path, op), op, scope, { ...stage, depth: depth + 1 });
}

const isAllowed = (op: Operator, scope: Scope): boolean => (OPERATORS[op] as readonly Scope[]).includes(scope);

const wordsIn = (scope: Scope): readonly string[] =>
	(Object.keys(OPERATORS) as Operator[]).filter((op) => isAllowed(op, scope));

const ONE_OR_MORE: Readonly<Partial<Record<Operator, readonly string[]>>> = {
	choice: CHOICE_KINDS,
	contest: CONTEST_KINDS,
	machine: MACHINE_STATES,
	votes: VOTE_COUNTS,
	shape: SHAPES,
	count: COUNTS
};

const ONE: Readonly<Partial<Record<Operator, readonly string[]>>> = {
	answer: ['yes', 'no'],
	technique: TECHNIQUES,
	seats: ['one', 'several'],
	leftUnstruck: ['within-limit'],
	ranked: RANK_EVENTS,
	channel: CHANNELS
};

/** The scope of the condition inside a word, where it is another. */
const INSIDE: Readonly<Partial<Record<Operator, Scope>>> = {
	someChoice: 'choice',
	voted: 'choice',
	someContest: 'contest'
};

function checkValue(report: Report, value: unknown, path: string, op: Operator, scope: Scope, stage: Stage): void {
	switch (op) {
		case 'all':
		case 'any':
			list(report, value ?? null, path, 1).forEach((part, i) => {
				checkCondition(report, part ?? null, at(path, i), scope, stage);
			});
			return;
		case 'not':
		case 'other':
		case 'everyOther':
		case 'someChoice':
		case 'voted':
		case 'someContest':
			checkCondition(report, value ?? null, path, INSIDE[op] ?? scope, stage);
			return;
		case 'mark':
		case 'inContest':
		case 'onBallot':
			checkMark(report, value, path);
			return;
		case 'target':
			checkTarget(report, value, path);
			return;
		case 'ballot': {
			const fact = oneOf(report, value ?? null, path, BALLOT_FACTS);
			if (fact !== undefined && scope !== 'ballot' && LATE_BALLOT_FACTS.includes(fact))
				report.add(path, 'a fact that is known before contests are decided', fact, 'Ask for it in a ballot clause.');
			return;
		}
		case 'switch':
			checkSwitch(report, value, path);
			return;
		default: {
			const one = ONE[op];
			const more = ONE_OR_MORE[op];
			if (one) oneOf(report, value ?? null, path, one);
			else if (more) checkWords(report, value ?? null, path, more);
			else if (flag(report, value ?? null, path) === false)
				report.add(path, 'true', value, 'Write true; for the opposite put it into "not".');
		}
	}
}

/** One word of a list, or a list of them. */
function checkWords(report: Report, value: unknown, path: string, options: readonly string[]): void {
	if (!Array.isArray(value)) {
		oneOf(report, value, path, options);
		return;
	}
	list(report, value, path, 1).forEach((entry, i) => {
		oneOf(report, entry ?? null, at(path, i), options);
	});
}

function onlyFields(report: Report, value: unknown, path: string, known: readonly string[]): Fields | undefined {
	const found = object(report, value ?? null, path);
	for (const name of Object.keys(found ?? {}))
		if (!known.includes(name))
			report.add(at(path, name), 'no such field', found?.[name], `The fields here are ${known.join(', ')}.`);
	return found;
}

function checkMark(report: Report, value: unknown, path: string): void {
	const mark = onlyFields(report, value, path, ['kind', 'place', 'says', 'touches']);
	if (!mark) return;
	checkWords(report, mark['kind'], at(path, 'kind'), MARK_KINDS);
	checkWords(report, mark['place'], at(path, 'place'), MARK_PLACES);
	checkWords(report, mark['says'], at(path, 'says'), SAYINGS);
	oneOf(report, mark['touches'], at(path, 'touches'), ['one', 'several']);
}

function checkTarget(report: Report, value: unknown, path: string): void {
	const target = onlyFields(report, value, path, ['level', 'fillAtLeast', 'fillBelow']);
	if (!target) return;
	if (Object.keys(target).length === 0)
		report.add(path, 'a level or a share of fill', target, 'Say which targets are meant.');
	checkWords(report, target['level'], at(path, 'level'), LEVELS);
	number(report, target['fillAtLeast'], at(path, 'fillAtLeast'), 0, 1);
	number(report, target['fillBelow'], at(path, 'fillBelow'), 0, 1);
}

function checkSwitch(report: Report, value: unknown, path: string): void {
	const asked = onlyFields(report, value, path, ['name', 'is']);
	if (!asked) return;
	const name = oneOf(report, asked['name'] ?? null, at(path, 'name'), Object.keys(SWITCHES) as SwitchName[]);
	if (name === undefined) return;
	if (asked['is'] === undefined)
		report.add(at(path, 'is'), `one of ${SWITCHES[name].map(describe).join(', ')}`, undefined, 'Add it.');
	checkWords(report, asked['is'], at(path, 'is'), SWITCHES[name]);
}
