import { dateOf, endOf, hasPassed, type Dated } from './dates';
import type { DateId, Election, Passage } from './election';
import { sayDate } from './sayDate';
import { fillSlots, slotsIn } from './slots';
import { textIn } from './text';

/** All of an election that the words in its texts are taken from. */
export type Telling = Dated & Pick<Election, 'languages' | 'passages'>;

/**
 * A text of the office as it reads at the instant `nowUtcMs` (milliseconds since 1970 in UTC), in one language: each slot
 * filled, and each passage in the words that hold by then. What cannot be filled stays as it stands, to be seen: `check`
 * reports it.
 */
export function sayOn(election: Telling, text: string, nowUtcMs: number, language: string): string {
	const fallback = election.languages[0] ?? 'en';
	const filled = fillSlots(text, (slot) => {
		const [act = '', id = ''] = slot.split(/:(.*)/s);
		if (slot === 'office.name') return textIn(election.office.name, language, fallback);
		if (slot === 'office.phone') return election.office.phone;
		if (slot === 'office.web') return election.office.web;
		const date = act === 'date' ? dateOf(election, id as DateId) : undefined;
		if (date) return sayDate(date, language);
		return (act === 'say' ? passageOn(election, id, nowUtcMs, language) : undefined) ?? `{{${slot}}}`;
	});
	// An hour may end in a stop of its own: "4:30 p.m.".
	return filled.replace(/\.\.(?!\.)/g, '.');
}

/** A passage as it reads at an instant; undefined where the file has none of that id. */
export function passageOn(election: Telling, id: string, nowUtcMs: number, language: string): string | undefined {
	const passage = passageOf(election, id);
	if (!passage) return undefined;
	const later = passage.after?.findLast(({ date }) => hasPassed(election, date, nowUtcMs) === true);
	const text = textIn(later?.text ?? passage.text, language, election.languages[0] ?? 'en');
	// A passage holds no passages, so a file that says one inside itself cannot run for ever.
	return sayOn({ ...election, passages: [] }, text, nowUtcMs, language);
}

/** The instants at which a passage in one of these texts changes, in milliseconds since 1970 in UTC. */
export function changesIn(election: Telling, texts: readonly string[]): readonly number[] {
	return texts
		.flatMap(slotsIn)
		.filter((slot) => slot.startsWith('say:'))
		.flatMap((slot) => passageOf(election, slot.slice('say:'.length))?.after ?? [])
		.map(({ date }) => endOf(election, date))
		.filter((instant) => instant !== undefined);
}

const passageOf = ({ passages }: Telling, id: string): Passage | undefined =>
	passages?.find((passage) => passage.id === id);
