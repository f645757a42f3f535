import { dateOf, endOf, hasPassed, instantOf, officeDay, type Dated } from '../election/dates';
import type { Answer, AnswerPart, DateId, Election, Passage } from '../election/election';
import { textIn } from '../election/text';
import { addDays } from '../election/calendar';
import { sayDate } from './sayDate';
import { fillSlots, slotsIn } from './slots';

/** A paragraph of an answer, filled in. */
export interface Paragraph extends AnswerPart {
	readonly text: string;
}

/** An answer as it is given at one instant, in one language. */
export interface AnswerNow {
	readonly id: string;
	/**
	 * `approved`: give it. `open`: nobody has written or approved it. `early` and `ended`: today is outside the days it
	 * was approved for. For all but `approved`, text and read-aloud send the voter to the office.
	 */
	readonly status: 'approved' | 'open' | 'early' | 'ended';
	readonly title: string;
	readonly text: string;
	/** The same text in paragraphs, a passage of its own in each: short enough to take in. */
	readonly paragraphs: readonly Paragraph[];
	readonly readAloud: string;
	/** The next instant (milliseconds since 1970 in UTC) at which these words change; undefined where they never will. */
	readonly changesAtUtcMs?: number;
}

/** All of an election that its answers need. */
export type AnsweringElection = Dated & Pick<Election, 'languages' | 'passages'>;

/** The passage that sends a voter to the office, where a file has one. */
const ASK_THE_OFFICE = 'ask-office';

/**
 * What the office says to a question at the instant `nowUtcMs` (milliseconds since 1970 in UTC). Days and hours are
 * those of the office's clock, so a voter in another zone gets the same words at the same moment.
 */
export function answerOn(election: AnsweringElection, answer: Answer, nowUtcMs: number, language: string): AnswerNow {
	const status = statusOf(election, answer, nowUtcMs);
	const fallback = election.languages[0] ?? 'en';
	const wording = { election, nowUtcMs, language, fallback };
	const ask = askTheOffice(wording);
	const changesAtUtcMs = nextChange(election, answer, nowUtcMs);
	const lines = status === 'approved' ? textIn(answer.text, language, fallback).split('\n') : [];
	const paragraphs = lines.flatMap((line, i): readonly Paragraph[] =>
		piecesOf(line).map((piece) => ({ ...(answer.parts?.[i] ?? { about: 'plain' }), text: say(wording, piece) }))
	);
	return {
		id: answer.id,
		status,
		title: textIn(answer.title, language, fallback),
		text: status === 'approved' ? lines.map((line) => say(wording, line)).join('\n') : ask,
		paragraphs: status === 'approved' ? paragraphs : [{ about: 'plain', text: ask }],
		readAloud: status === 'approved' ? say(wording, textIn(answer.readAloud, language, fallback)) : ask,
		...(changesAtUtcMs === undefined ? {} : { changesAtUtcMs })
	};
}

function statusOf({ office }: Dated, answer: Answer, nowUtcMs: number): AnswerNow['status'] {
	const written = [answer.text, answer.readAloud].every((text) => textIn(text, '').trim() !== '');
	if (!written || answer.approvedBy.trim() === '' || answer.cite.trim() === '') return 'open';
	const today = officeDay(office.timeZone, nowUtcMs);
	if (answer.validFrom !== undefined && today < answer.validFrom) return 'early';
	return answer.validTo !== undefined && today > answer.validTo ? 'ended' : 'approved';
}

interface Wording {
	readonly election: AnsweringElection;
	readonly nowUtcMs: number;
	readonly language: string;
	readonly fallback: string;
}

/** A paragraph with each passage by itself. */
const piecesOf = (line: string): readonly string[] =>
	line
		.split(/({{\s*say:[^{}]*}})/)
		.map((piece) => piece.trim())
		.filter((piece) => piece !== '');

/** A file may have no passage for it; name and number need no language. */
function askTheOffice(wording: Wording): string {
	const { election, language, fallback } = wording;
	const passage = passageOf(election, ASK_THE_OFFICE);
	if (passage) return say(wording, sayPassage(wording, passage));
	return `${textIn(election.office.name, language, fallback)}: ${election.office.phone}`;
}

/** Fills the slots of a text. What cannot be filled stays as it stands, to be seen: `check` reports it. */
function say(wording: Wording, text: string): string {
	const { election, language, fallback } = wording;
	const filled = fillSlots(text, (slot) => {
		const [act = '', id = ''] = slot.split(/:(.*)/s);
		if (slot === 'office.name') return textIn(election.office.name, language, fallback);
		if (slot === 'office.phone') return election.office.phone;
		if (slot === 'office.web') return election.office.web;
		const date = act === 'date' ? dateOf(election, id as DateId) : undefined;
		if (date) return sayDate(date, language);
		const passage = act === 'say' ? passageOf(election, id) : undefined;
		// A passage holds no passages, so a file that says one inside itself cannot run for ever.
		if (passage) return say({ ...wording, election: { ...election, passages: [] } }, sayPassage(wording, passage));
		return `{{${slot}}}`;
	});
	// An hour may end in a stop of its own: "4:30 p.m.".
	return filled.replace(/\.\.(?!\.)/g, '.');
}

const passageOf = (election: AnsweringElection, id: string): Passage | undefined =>
	election.passages?.find((passage) => passage.id === id);

function sayPassage({ election, nowUtcMs, language, fallback }: Wording, { text, after = [] }: Passage): string {
	const later = after.findLast(({ date }) => hasPassed(election, date, nowUtcMs) === true);
	return textIn(later?.text ?? text, language, fallback);
}

/** The first of the ends of dates and of valid days that lies ahead. */
function nextChange(election: AnsweringElection, answer: Answer, nowUtcMs: number): number | undefined {
	const passages = Object.values(answer.text)
		.concat(Object.values(answer.readAloud))
		.flatMap(slotsIn)
		.filter((slot) => slot.startsWith('say:'))
		.map((slot) => passageOf(election, slot.slice('say:'.length)));
	const dates = passages.flatMap((passage) => passage?.after ?? []).map(({ date }) => endOf(election, date));
	const { timeZone } = election.office;
	if (answer.validFrom !== undefined) dates.push(instantOf(answer.validFrom, '00:00', timeZone));
	if (answer.validTo !== undefined) dates.push(instantOf(addDays(answer.validTo, 1), '00:00', timeZone));
	const ahead = dates.filter((instant) => instant !== undefined && instant > nowUtcMs) as number[];
	return ahead.length > 0 ? Math.min(...ahead) : undefined;
}
