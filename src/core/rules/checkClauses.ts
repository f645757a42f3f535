import { day, fields, flag, inOthers, list, oneOf, pattern, words, type Fields } from '../election/fields';
import { at, type Report } from '../election/report';
import { checkCondition } from './checkCondition';
import { checkText, written } from './checkText';
import { DECIDES, RESULTS, SCOPES, STATUSES, type Scope } from './vocabulary';

const REQUIRED = ['id', 'cite', 'source', 'read', 'status', 'scope', 'when', 'then', 'plain'];
const OPTIONAL = ['citeIn', 'quote', 'gap', 'literal', 'historic', 'exceptionTo', 'conflictsWith', 'decides'];

/** Longest quotation, in characters: one short clause, so that a study copy stays a study copy. */
const LONGEST_QUOTE = 200;

const ID = /^[A-Za-z0-9]+(?:[-.][A-Za-z0-9]+)*$/;

/** A clause as far as it could be read, for the checks that compare clauses. */
interface Known {
	readonly id: string;
	readonly path: string;
	readonly scope: Scope | undefined;
	readonly exceptionTo: readonly string[];
	readonly conflictsWith: readonly string[];
	/** Condition and result as text, to find clauses that say different things of the same case. */
	readonly when: string;
	readonly then: string;
}

/** All clauses, one by one and against each other. Gives their ids. */
export function checkClauses(report: Report, value: unknown): ReadonlySet<string> {
	const known: Known[] = [];
	list(report, value, 'clauses', 1).forEach((entry, i) => {
		const path = at('clauses', i);
		const clause = fields(report, entry, path, REQUIRED, OPTIONAL);
		if (!clause) return;
		const found = checkClause(report, clause, path);
		if (found) known.push(found);
	});
	const byId = new Map<string, Known>();
	for (const clause of known) {
		const first = byId.get(clause.id);
		if (first)
			report.add(at(clause.path, 'id'), 'an id of its own', clause.id, `${first.path} has it too; change one.`);
		else byId.set(clause.id, clause);
	}
	for (const clause of known) checkReferences(report, clause, byId);
	checkCircles(report, known, byId);
	checkAgainstEachOther(report, known);
	return new Set(byId.keys());
}

function checkClause(report: Report, clause: Fields, path: string): Known | undefined {
	const id = pattern(report, clause['id'], at(path, 'id'), ID, 'an id such as "AK-a1"');
	for (const name of ['cite', 'source'])
		written(report, clause[name], at(path, name), 'a citation', 'Say where the rule stands.');
	inOthers(report, clause['citeIn'], at(path, 'citeIn'));
	checkQuote(report, clause['quote'], at(path, 'quote'));
	day(report, clause['read'], at(path, 'read'));
	const status = oneOf(report, clause['status'], at(path, 'status'), STATUSES);
	if (status === 'R-part' && clause['gap'] === undefined)
		report.add(at(path, 'gap'), 'what was not read of it', undefined, 'Say it, since status is "R-part".');
	checkText(report, clause['gap'], at(path, 'gap'));
	flag(report, clause['literal'], at(path, 'literal'));
	flag(report, clause['historic'], at(path, 'historic'));
	const scope = oneOf(report, clause['scope'], at(path, 'scope'), SCOPES);
	if (scope) {
		checkCondition(report, clause['when'], at(path, 'when'), scope, { early: scope === 'choice' });
		checkThen(report, clause['then'], at(path, 'then'), scope);
	}
	const exceptionTo = checkIds(report, clause['exceptionTo'], at(path, 'exceptionTo'));
	const conflictsWith = checkIds(report, clause['conflictsWith'], at(path, 'conflictsWith'));
	oneOf(report, clause['decides'], at(path, 'decides'), DECIDES);
	checkText(report, clause['plain'], at(path, 'plain'));
	if (id === undefined) return undefined;
	const [when, then] = [canonical(clause['when']), canonical(clause['then'])];
	return { id, path, scope, exceptionTo, conflictsWith, when, then };
}

function checkQuote(report: Report, value: unknown, path: string): void {
	const quote = words(report, value, path);
	if (quote !== undefined && quote.length > LONGEST_QUOTE)
		report.add(
			path,
			`at most ${LONGEST_QUOTE} characters`,
			quote,
			`Quote one short clause; this has ${quote.length} characters.`
		);
}

function checkThen(report: Report, value: unknown, path: string, scope: Scope): void {
	if (scope === 'contest' && typeof value === 'object' && value !== null) {
		const then = fields(report, value, path, ['prefer']);
		if (then?.['prefer'] !== undefined)
			checkCondition(report, then['prefer'], at(path, 'prefer'), 'choice', { early: false });
		return;
	}
	oneOf<string>(report, value, path, RESULTS[scope]);
}

function checkIds(report: Report, value: unknown, path: string): readonly string[] {
	return list(report, value, path).flatMap((entry, i) => words(report, entry, at(path, i)) ?? []);
}

function checkReferences(report: Report, clause: Known, byId: ReadonlyMap<string, Known>): void {
	const check = (ids: readonly string[], name: string, sameScope: boolean): void => {
		ids.forEach((id, i) => {
			const path = at(at(clause.path, name), i);
			const other = byId.get(id);
			if (!other) report.add(path, 'the id of a clause here', id, 'Correct it, or add the clause.');
			else if (sameScope && clause.scope && other.scope && clause.scope !== other.scope)
				report.add(
					path,
					`a clause of scope "${clause.scope}"`,
					id,
					`It has scope "${other.scope}". A contest clause goes before choice clauses, a ballot clause before both, without being named; write anything else into the condition.`
				);
		});
	};
	check(clause.exceptionTo, 'exceptionTo', true);
	check(clause.conflictsWith, 'conflictsWith', false);
}

/** Reports each circle once, at the first of its clauses. */
function checkCircles(report: Report, known: readonly Known[], byId: ReadonlyMap<string, Known>): void {
	const done = new Set<string>();
	const reported = new Set<string>();
	const visit = (clause: Known, trail: readonly string[]): void => {
		const from = trail.indexOf(clause.id);
		if (from >= 0) {
			const circle = trail.slice(from);
			const key = [...circle].sort().join(' ');
			if (reported.has(key)) return;
			reported.add(key);
			report.add(
				at(clause.path, 'exceptionTo'),
				'exceptions without a circle',
				[...circle, clause.id].join(' → '),
				'Take one of them out: no two clauses can each be an exception to the other.'
			);
			return;
		}
		if (done.has(clause.id)) return;
		for (const id of clause.exceptionTo) {
			const weaker = byId.get(id);
			if (weaker) visit(weaker, [...trail, clause.id]);
		}
		done.add(clause.id);
	};
	for (const clause of known) visit(clause, []);
}

function checkAgainstEachOther(report: Report, known: readonly Known[]): void {
	const byCase = new Map<string, Known[]>();
	for (const clause of known) {
		const key = `${clause.scope ?? ''} ${clause.when}`;
		const same = byCase.get(key) ?? [];
		for (const other of same)
			if (other.then !== clause.then && !areRelated(other, clause))
				report.add(
					at(clause.path, 'then'),
					`the same as ${other.id}, which has the same condition`,
					JSON.parse(clause.then),
					`Name one as the other’s exception (exceptionTo), or, if the law itself does not say which wins, name them in conflictsWith.`
				);
		byCase.set(key, [...same, clause]);
	}
}

const areRelated = (a: Known, b: Known): boolean =>
	[...a.exceptionTo, ...a.conflictsWith].includes(b.id) || [...b.exceptionTo, ...b.conflictsWith].includes(a.id);

/** JSON with its fields in order, and lists of alternatives too: "all" and "any" have none. */
function canonical(value: unknown): string {
	if (Array.isArray(value)) return `[${value.map(canonical).sort().join(',')}]`;
	if (typeof value !== 'object' || value === null) return value === undefined ? 'null' : JSON.stringify(value);
	const entries = Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1));
	return `{${entries.map(([name, part]) => `${JSON.stringify(name)}:${canonical(part)}`).join(',')}}`;
}
