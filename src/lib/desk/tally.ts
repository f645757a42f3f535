import { MISTAKE_CODES } from '$core/answers/mistakeCodes';
import { LEAST_SHOWN, shownCounts } from '$core/answers/shownCounts';
import { officeDay } from '$core/election/dates';

/** What a call was about: a mistake code, or this where it was no mistake. */
export const PLAIN_QUESTION = 'plain-question';
export const CODES: readonly string[] = [...MISTAKE_CODES.map(({ id }) => id), PLAIN_QUESTION];

/** The language a call was held in; all others together. */
export const CALL_LANGUAGES = ['en', 'es', 'other'] as const;
export type CallLanguage = (typeof CALL_LANGUAGES)[number];

/** Hours of the office's clock in bands of three: finer ones would point at single calls. */
const BAND_HOURS = 3;
export const HOUR_BANDS: readonly string[] = Array.from({ length: 24 / BAND_HOURS }, (_, i) => bandFrom(i));

export { LEAST_SHOWN };

/** How often each thing came up; a cell that is not there is 0. Nothing of a single call is kept. */
export interface Tally {
	readonly format: 'fairhand-calls/1';
	/** The office's day of the first call. */
	readonly since: string;
	readonly codes: Readonly<Record<string, number>>;
	readonly languages: Readonly<Record<string, number>>;
	readonly hours: Readonly<Record<string, number>>;
}

export interface Call {
	readonly code: string;
	readonly language: CallLanguage;
}

/** The tally with one call more, made at `nowUtcMs` by the office's clock. */
export function withCall(tally: Tally | undefined, call: Call, nowUtcMs: number, timeZone: string): Tally {
	if (!CODES.includes(call.code))
		throw new RangeError(`withCall: expected a mistake code or "${PLAIN_QUESTION}", got "${call.code}"`);
	const { since, codes, languages, hours } = tally ?? emptySince(officeDay(timeZone, nowUtcMs));
	const one = (cells: Readonly<Record<string, number>>, cell: string) => ({ ...cells, [cell]: (cells[cell] ?? 0) + 1 });
	return {
		format: 'fairhand-calls/1',
		since,
		codes: one(codes, call.code),
		languages: one(languages, call.language),
		hours: one(hours, hourBand(nowUtcMs, timeZone))
	};
}

/** The band of hours in which an instant falls, "09-12", by a clock in `timeZone`. */
export function hourBand(nowUtcMs: number, timeZone: string): string {
	const clock = new Intl.DateTimeFormat('en-u-nu-latn', { timeZone, hour: '2-digit', hourCycle: 'h23' });
	return bandFrom(Math.floor(Number(clock.format(nowUtcMs)) / BAND_HOURS));
}

/** A cell as it is given out: its calls, or undefined where they are held back. */
export interface ShownCell {
	readonly cell: string;
	readonly calls: number | undefined;
}

/** The cells of one table, small ones held back. */
export function shownCells(cells: Readonly<Record<string, number>>, known: readonly string[]): readonly ShownCell[] {
	return shownCounts(cells, known).map(({ cell, count }) => ({ cell, calls: count }));
}

export interface ShownTally {
	readonly since: string;
	readonly codes: readonly ShownCell[];
	readonly languages: readonly ShownCell[];
	readonly hours: readonly ShownCell[];
}

export const shownTally = ({ since, codes, languages, hours }: Tally): ShownTally => ({
	since,
	codes: shownCells(codes, CODES),
	languages: shownCells(languages, CALL_LANGUAGES),
	hours: shownCells(hours, HOUR_BANDS)
});

/** A tally kept on a device, or undefined where the text is none. */
export function parseTally(text: string): Tally | undefined {
	let value: unknown;
	try {
		value = JSON.parse(text);
	} catch {
		return undefined;
	}
	if (typeof value !== 'object' || value === null) return undefined;
	const { format, since, codes, languages, hours } = value as Partial<Record<keyof Tally, unknown>>;
	if (format !== 'fairhand-calls/1' || typeof since !== 'string' || !/^\d{4}-\d{2}-\d{2}$/.test(since))
		return undefined;
	if (!isTable(codes, CODES) || !isTable(languages, CALL_LANGUAGES) || !isTable(hours, HOUR_BANDS)) return undefined;
	return { format, since, codes, languages, hours };
}

function isTable(value: unknown, known: readonly string[]): value is Readonly<Record<string, number>> {
	return (
		typeof value === 'object' &&
		value !== null &&
		!Array.isArray(value) &&
		Object.entries(value).every(([cell, calls]) => known.includes(cell) && Number.isInteger(calls) && calls > 0)
	);
}

const emptySince = (since: string): Tally => ({
	format: 'fairhand-calls/1',
	since,
	codes: {},
	languages: {},
	hours: {}
});

function bandFrom(band: number): string {
	const two = (hour: number): string => String(hour).padStart(2, '0');
	return `${two(band * BAND_HOURS)}-${two((band + 1) * BAND_HOURS)}`;
}
