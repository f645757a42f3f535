import { addDays } from '../election/calendar';
import { instantOf, officeDay, type Dated } from '../election/dates';
import type { Answer, AnswerPart } from '../election/election';
import { changesIn, passageOn, sayOn, type Telling } from '../election/sayOn';
import { textIn } from '../election/text';

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

/** The passage that sends a voter to the office, where a file has one. */
const ASK_THE_OFFICE = 'ask-office';

/**
 * What the office says to a question at the instant `nowUtcMs` (milliseconds since 1970 in UTC). Days and hours are
 * those of the office's clock, so a voter in another zone gets the same words at the same moment.
 */
export function answerOn(election: Telling, answer: Answer, nowUtcMs: number, language: string): AnswerNow {
	const status = statusOf(election, answer, nowUtcMs);
	const fallback = election.languages[0] ?? 'en';
	const say = (text: string): string => sayOn(election, text, nowUtcMs, language);
	const ask = askTheOffice(election, nowUtcMs, language);
	const changesAtUtcMs = nextChange(election, answer, nowUtcMs);
	const lines = status === 'approved' ? textIn(answer.text, language, fallback).split('\n') : [];
	const paragraphs = lines.flatMap((line, i): readonly Paragraph[] =>
		piecesOf(line).map((piece) => ({ ...(answer.parts?.[i] ?? { about: 'plain' }), text: say(piece) }))
	);
	return {
		id: answer.id,
		status,
		title: textIn(answer.title, language, fallback),
		text: status === 'approved' ? lines.map((line) => say(line)).join('\n') : ask,
		paragraphs: status === 'approved' ? paragraphs : [{ about: 'plain', text: ask }],
		readAloud: status === 'approved' ? say(textIn(answer.readAloud, language, fallback)) : ask,
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

/** A paragraph with each passage by itself. */
const piecesOf = (line: string): readonly string[] =>
	line
		.split(/({{\s*say:[^{}]*}})/)
		.map((piece) => piece.trim())
		.filter((piece) => piece !== '');

/** A file may have no passage for it; name and number need no language. */
const askTheOffice = (election: Telling, nowUtcMs: number, language: string): string =>
	passageOn(election, ASK_THE_OFFICE, nowUtcMs, language) ??
	`${textIn(election.office.name, language, election.languages[0])}: ${election.office.phone}`;

/** The first of the ends of dates and of valid days that lies ahead. */
function nextChange(election: Telling, answer: Answer, nowUtcMs: number): number | undefined {
	const changes = [
		...changesIn(
			election,
			[answer.text, answer.readAloud].flatMap((text) => Object.values(text))
		)
	];
	const { timeZone } = election.office;
	if (answer.validFrom !== undefined) changes.push(instantOf(answer.validFrom, '00:00', timeZone));
	if (answer.validTo !== undefined) changes.push(instantOf(addDays(answer.validTo, 1), '00:00', timeZone));
	const ahead = changes.filter((instant) => instant > nowUtcMs);
	return ahead.length > 0 ? Math.min(...ahead) : undefined;
}
