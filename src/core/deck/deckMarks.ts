import type { TargetShape } from '../election/election';
import type { PlaceableMark } from '../ink/placeMark';
import type { TargetLevel } from '../marks/mark';

/** One kind of known mark. What it is meant as was decided before any reader saw it. */
export interface DeckMark {
	/** Strokes it is drawn with, in order. */
	readonly parts: readonly PlaceableMark[];
	/** Levels at which its target may be read. */
	readonly accept: readonly TargetLevel[];
}

const ANY: readonly TargetLevel[] = ['dark', 'unsure', 'empty'];

/**
 * What a deck draws. A target filled as asked is dark and one with no ink inside is empty, whatever stands beside it. A
 * check, a cross or half a fill was put into the target on purpose: read as empty it would be lost. A dot is where a pen
 * rested: read as dark it would be a vote that nobody cast. Where people themselves would not agree, every level goes,
 * and the report only says what came of it.
 */
export const DECK_MARKS = {
	none: { parts: [], accept: ['empty'] },
	fill: { parts: ['fill'], accept: ['dark'] },
	check: { parts: ['check'], accept: ['dark', 'unsure'] },
	cross: { parts: ['cross'], accept: ['dark', 'unsure'] },
	partial: { parts: ['partial'], accept: ['dark', 'unsure'] },
	light: { parts: ['light'], accept: ANY },
	dot: { parts: ['dot'], accept: ['unsure', 'empty'] },
	ring: { parts: ['ring'], accept: ['empty'] },
	'circled-name': { parts: ['circle-name'], accept: ['empty'] },
	'underlined-name': { parts: ['underline-name'], accept: ['empty'] },
	'struck-name': { parts: ['strike-name'], accept: ['empty'] },
	'after-name': { parts: ['after-name'], accept: ['empty'] },
	beside: { parts: ['beside'], accept: ['empty'] },
	'old-arrow': { parts: ['join-arrow'], accept: ANY },
	/** Another rank of the same choice, through which a line to its name runs. */
	'run-through': { parts: [], accept: ANY },
	'crossed-out': { parts: ['fill', 'cross-out'], accept: ['dark'] },
	'written-filled': { parts: ['fill', 'write-in'], accept: ['dark'] },
	written: { parts: ['write-in'], accept: ['empty'] }
} as const satisfies Readonly<Record<string, DeckMark>>;

/** Marks with a line from the target to the name: where a choice has targets for several ranks, it may run through others. */
export const RUNS_TO_NAME: ReadonlySet<DeckMarkId> = new Set(['crossed-out', 'old-arrow']);

export type DeckMarkId = keyof typeof DECK_MARKS;

/** Marks dealt out over the contests of a sheet; those for write-in lines and cross-outs have cards of their own. */
export function dealtMarks(shape: TargetShape): readonly DeckMarkId[] {
	const everywhere: readonly DeckMarkId[] = [
		'check',
		'cross',
		'partial',
		'light',
		'dot',
		'ring',
		'circled-name',
		'underlined-name',
		'struck-name',
		'after-name',
		'beside'
	];
	// On an arrow ballot the line that joins the arrow is what is asked for, and half of it is what half a fill is here.
	return shape === 'arrow'
		? everywhere.filter((id) => id !== 'check' && id !== 'cross' && id !== 'dot')
		: [...everywhere, 'old-arrow'];
}
