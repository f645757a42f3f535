/**
 * What can be the matter with one contest, most pressing first. The first of a contest's situations
 * gives its note a heading.
 */
export const SITUATIONS = [
	// Marks that work against each other.
	'crossover',
	'crossOut',
	'yesAndNo',
	'overvoteWriteIn',
	'overvote',
	'lightTooMany',
	'writeInTooMany',
	'outsideTooMany',
	'touchesTwo',
	// A choice that a machine may miss.
	'writeInNoTarget',
	'light',
	'faint',
	'join',
	'wrongSide',
	'ring',
	'underline',
	'beside',
	// Ink that nobody may have meant as a vote.
	'dot',
	'erased',
	'smudge',
	'stain',
	'fold',
	'writeInNoName',
	'note',
	'crossOutAlone',
	'partial',
	// Nothing to worry about.
	'crossOutClean',
	'erasedClean',
	'dotNear',
	'mishapNear',
	'emphasis',
	'stray',
	'writeInRead',
	'undervote',
	'blank',
	'nothing'
] as const;
export type SituationId = (typeof SITUATIONS)[number];

/** What puts it right: more ink on the target, a name on the line, the office's correction steps, or nothing. */
export type Remedy = 'fill' | 'write' | 'correct' | 'none';

/** `tone`: whether it asks for a second look. */
export const REMEDIES: Readonly<Record<SituationId, { readonly tone: 'calm' | 'look'; readonly remedy: Remedy }>> = {
	crossover: { tone: 'look', remedy: 'correct' },
	crossOut: { tone: 'look', remedy: 'correct' },
	yesAndNo: { tone: 'look', remedy: 'correct' },
	overvoteWriteIn: { tone: 'look', remedy: 'correct' },
	overvote: { tone: 'look', remedy: 'correct' },
	lightTooMany: { tone: 'look', remedy: 'correct' },
	writeInTooMany: { tone: 'look', remedy: 'correct' },
	outsideTooMany: { tone: 'look', remedy: 'correct' },
	touchesTwo: { tone: 'look', remedy: 'fill' },
	writeInNoTarget: { tone: 'look', remedy: 'write' },
	light: { tone: 'look', remedy: 'fill' },
	faint: { tone: 'look', remedy: 'fill' },
	join: { tone: 'look', remedy: 'fill' },
	wrongSide: { tone: 'look', remedy: 'fill' },
	ring: { tone: 'look', remedy: 'fill' },
	underline: { tone: 'look', remedy: 'fill' },
	beside: { tone: 'look', remedy: 'fill' },
	dot: { tone: 'look', remedy: 'correct' },
	erased: { tone: 'look', remedy: 'correct' },
	smudge: { tone: 'look', remedy: 'correct' },
	stain: { tone: 'look', remedy: 'correct' },
	fold: { tone: 'look', remedy: 'correct' },
	writeInNoName: { tone: 'look', remedy: 'write' },
	note: { tone: 'look', remedy: 'correct' },
	crossOutAlone: { tone: 'look', remedy: 'correct' },
	partial: { tone: 'look', remedy: 'fill' },
	crossOutClean: { tone: 'calm', remedy: 'correct' },
	erasedClean: { tone: 'calm', remedy: 'none' },
	dotNear: { tone: 'calm', remedy: 'none' },
	mishapNear: { tone: 'calm', remedy: 'none' },
	emphasis: { tone: 'calm', remedy: 'none' },
	stray: { tone: 'calm', remedy: 'none' },
	writeInRead: { tone: 'calm', remedy: 'none' },
	undervote: { tone: 'calm', remedy: 'none' },
	blank: { tone: 'calm', remedy: 'none' },
	nothing: { tone: 'calm', remedy: 'none' }
};

/** One thing found in a contest. */
export interface Situation {
	readonly id: SituationId;
	readonly choice?: string;
	/** Ids of the marks it is about. */
	readonly marks: readonly string[];
	/** What its sentence needs besides the choice. */
	readonly values?: Readonly<Record<string, string | number>>;
}
