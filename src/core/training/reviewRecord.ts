import { OTHER_DECISIONS, type Decision, type OtherDecision } from './decision';
import type { ContestCase } from './contestCase';

export const RECORD_FORMAT = 'fairhand-review/1';

/** The two who take the same queue have no other names. */
export type Person = 'A' | 'B';

export interface DecidedCase {
	readonly case: string;
	readonly decision: Decision;
}

/** What one person decided, as it is saved: no name, no time, nothing of a voter. */
export interface ReviewRecord {
	readonly format: typeof RECORD_FORMAT;
	/** Which cases there were to choose from; see `stackOf`. */
	readonly stack: string;
	readonly person: Person;
	readonly rulebook: string;
	/** In the order in which they were dealt and decided. */
	readonly decisions: readonly DecidedCase[];
}

/**
 * A short name for a list of cases that changes with any of them: FNV-1a of 32 bits, by Fowler, Noll and Vo (RFC 9923).
 * It tells a record of other cases apart; it keeps nothing safe.
 */
export function stackOf(cases: readonly ContestCase[]): string {
	let hash = 0x811c9dc5;
	const plain = [...cases]
		.map(({ id, contest, marks, says }) => JSON.stringify([id, contest, marks, says]))
		.sort()
		.join();
	for (let i = 0; i < plain.length; i += 1) hash = Math.imul(hash ^ plain.charCodeAt(i), 0x01000193);
	return (hash >>> 0).toString(16).padStart(8, '0');
}

export const recordJson = (record: ReviewRecord): string => `${JSON.stringify(record, undefined, '\t')}\n`;

/** What a saved file must fit: the cases at hand with their choices, and the rulebooks that there are. */
export interface RecordFrame {
	readonly stack: string;
	/** By case: the ids of its contest's choices. */
	readonly choicesOf: ReadonlyMap<string, readonly string[]>;
	readonly rulebooks: readonly string[];
}

/** A saved file cannot be used. `fault` is a key of `training.file.`, with what was expected and what came. */
export interface RecordFault {
	readonly fault: 'not-json' | 'format' | 'stack' | 'rulebook' | 'decisions' | 'case' | 'decision';
	readonly expected: string;
	readonly received: string;
}

/** A record from a file's text, or why it is none. What the record holds besides its own fields is dropped. */
export function parseRecord(text: string, { stack, choicesOf, rulebooks }: RecordFrame): ReviewRecord | RecordFault {
	let file: unknown;
	try {
		file = JSON.parse(text);
	} catch {
		return { fault: 'not-json', expected: 'JSON', received: shown(text) };
	}
	const { format, stack: own, person, rulebook, decisions } = fieldsOf(file);
	if (format !== RECORD_FORMAT) return { fault: 'format', expected: RECORD_FORMAT, received: shown(format) };
	if (own !== stack) return { fault: 'stack', expected: stack, received: shown(own) };
	if (typeof rulebook !== 'string' || !rulebooks.includes(rulebook))
		return { fault: 'rulebook', expected: rulebooks.join(', '), received: shown(rulebook) };
	if (!Array.isArray(decisions) || decisions.length === 0)
		return { fault: 'decisions', expected: '1-100', received: shown(decisions) };
	const decided: DecidedCase[] = [];
	for (const entry of decisions as readonly unknown[]) {
		const { case: id, decision } = fieldsOf(entry);
		const choices = typeof id === 'string' ? choicesOf.get(id) : undefined;
		if (typeof id !== 'string' || !choices || decided.some((one) => one.case === id))
			return { fault: 'case', expected: '', received: shown(id) };
		const parsed = parseDecision(decision, choices);
		if (!parsed)
			return { fault: 'decision', expected: `vote, ${OTHER_DECISIONS.join(', ')}`, received: shown(decision) };
		decided.push({ case: id, decision: parsed });
	}
	return { format: RECORD_FORMAT, stack, person: person === 'B' ? 'B' : 'A', rulebook, decisions: decided };
}

function parseDecision(value: unknown, choices: readonly string[]): Decision | undefined {
	const { outcome, votes } = fieldsOf(value);
	if (OTHER_DECISIONS.includes(outcome as OtherDecision)) return { outcome: outcome as OtherDecision };
	if (outcome !== 'vote' || !Array.isArray(votes) || votes.length === 0) return undefined;
	const named = choices.filter((choice) => votes.includes(choice));
	return named.length === votes.length ? { outcome: 'vote', votes: named } : undefined;
}

/** Own fields of an object; none of anything else. */
const fieldsOf = (value: unknown): Readonly<Record<string, unknown>> =>
	typeof value === 'object' && value !== null ? (value as Record<string, unknown>) : {};

/** The beginning of a value, as it stands in the file. */
const shown = (value: unknown): string => (value === undefined ? 'undefined' : JSON.stringify(value)).slice(0, 60);
