import type { Answer, AnswerKind, Stage } from '../election/election';

/** The three questions asked of a caller, and the answer they lead to. */
export type TriageStep = 'keeping' | 'place' | 'kind' | 'answer' | 'done';

/** Is the ballot still with the caller? */
export const KEEPING = ['with-me', 'sent', 'none'] as const;
/** Where is the caller? Asked only while the ballot is still in hand. */
export const PLACES = ['home', 'polling-place'] as const;

/** What happened, the kinds that are asked about most first. */
const KINDS: readonly AnswerKind[] = [
	'mistake',
	'replacement',
	'marking',
	'pen',
	'damage',
	'contest',
	'write-in',
	'envelope',
	'return',
	'primary',
	'secrecy',
	'trust'
];

/** The keys of options in order, shown beside them. */
const KEYS = '123456789abcdefghijklmnopqrstuvwxyz';

export interface TriageOption {
	readonly key: string;
	/** A word of KEEPING or PLACES, a kind, or an answer's id. */
	readonly id: string;
}

export interface Triage {
	readonly step: TriageStep;
	readonly options: readonly TriageOption[];
	/** Where the ballot is, as far as it is known. */
	readonly stage?: Stage;
	/** At the end: id of the one approved answer. */
	readonly answer?: string;
}

type Asked = Pick<Answer, 'id' | 'kind' | 'stages'>;

/**
 * Where a call stands after `path`, the ids chosen so far. Only kinds and answers for the caller's stage are offered; a
 * kind with one answer leads to it at once. Throws a RangeError on a step that was not offered.
 */
export function triage(answers: readonly Asked[], path: readonly string[]): Triage {
	let at: Triage = { step: 'keeping', options: optionsOf(KEEPING) };
	for (const id of path) {
		if (!at.options.some((option) => option.id === id))
			throw new RangeError(
				`triage: expected one of ${at.options.map((option) => option.id).join(', ') || 'nothing more'}, got "${id}"`
			);
		at = after(at, id, answers);
	}
	return at;
}

/** The id that a pressed key chooses, or undefined. */
export const chosenBy = ({ options }: Triage, key: string): string | undefined =>
	options.find((option) => option.key === key.toLowerCase())?.id;

function after({ step, stage }: Triage, id: string, answers: readonly Asked[]): Triage {
	const known = stage === undefined ? {} : { stage };
	switch (step) {
		case 'keeping':
			if (id === 'with-me') return { step: 'place', options: optionsOf(PLACES) };
			return whatHappened(answers, id === 'sent' ? 'mailed' : undefined);
		case 'place':
			return whatHappened(answers, id === 'home' ? 'holding' : 'polling-place');
		case 'kind': {
			const fitting = answers.filter((answer) => answer.kind === id && isFor(answer, stage));
			const [only] = fitting;
			if (fitting.length === 1 && only) return { step: 'done', options: [], ...known, answer: only.id };
			return { step: 'answer', options: optionsOf(fitting.map((answer) => answer.id)), ...known };
		}
		case 'answer':
			return { step: 'done', options: [], ...known, answer: id };
		case 'done':
			return { step, options: [], ...known };
	}
}

function whatHappened(answers: readonly Asked[], stage: Stage | undefined): Triage {
	const kinds = KINDS.filter((kind) => answers.some((answer) => answer.kind === kind && isFor(answer, stage)));
	return { step: 'kind', options: optionsOf(kinds), ...(stage === undefined ? {} : { stage }) };
}

const isFor = ({ stages }: Asked, stage: Stage | undefined): boolean => stage === undefined || stages.includes(stage);

function optionsOf(ids: readonly string[]): readonly TriageOption[] {
	if (ids.length > KEYS.length)
		throw new RangeError(`triage: expected at most ${KEYS.length} answers of a kind, got ${ids.length}`);
	return ids.map((id, i) => ({ key: KEYS[i] ?? '', id }));
}
