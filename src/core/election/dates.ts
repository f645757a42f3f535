import { addDays, dayMs } from './calendar';
import type { DateId, Election } from './election';

/** What an election's days are counted by: its own day, its dates, and the office's clock. */
export type Dated = Pick<Election, 'date' | 'dates' | 'office'>;

/** A day, "YYYY-MM-DD", and where the office sets one the hour of its clock, "HH:MM". */
export interface OfficeDate {
	readonly date: string;
	readonly time?: string;
}

/**
 * The day on which something happens in this election: its offset added to election day by the calendar alone, so
 * the answer is the same on every device. Undefined when the file gives no such date.
 */
export function dateOf(election: Pick<Dated, 'date' | 'dates'>, id: DateId): OfficeDate | undefined {
	const entry = election.dates.find((date) => date.id === id);
	if (!entry) return undefined;
	const date = addDays(election.date, entry.offsetDays);
	return entry.time === undefined ? { date } : { date, time: entry.time };
}

/**
 * Whether a date of the election is over at the instant `nowUtcMs` (milliseconds since 1970 in UTC), by the office's
 * clock: from its hour on, or, where it has none, from the end of its day. Undefined when the file gives no such date.
 */
export function hasPassed(election: Dated, id: DateId, nowUtcMs: number): boolean | undefined {
	const end = endOf(election, id);
	return end === undefined ? undefined : nowUtcMs >= end;
}

/** The instant from which a date is over, in milliseconds since 1970 in UTC; undefined when the file gives none. */
export function endOf(election: Dated, id: DateId): number | undefined {
	const day = dateOf(election, id);
	if (!day) return undefined;
	if (day.time === undefined) return instantOf(addDays(day.date, 1), '00:00', election.office.timeZone);
	return instantOf(day.date, day.time, election.office.timeZone);
}

/** The next instant after `nowUtcMs` at which a date of the election is over; undefined where none lies ahead. */
export function nextEnd(election: Dated, nowUtcMs: number): number | undefined {
	const ahead = election.dates
		.map(({ id }) => endOf(election, id))
		.filter((end) => end !== undefined)
		.filter((end) => end > nowUtcMs);
	return ahead.length > 0 ? Math.min(...ahead) : undefined;
}

/** The office's own day, "YYYY-MM-DD", at an instant: a voter elsewhere may already have tomorrow. */
export function officeDay(timeZone: string, nowUtcMs: number): string {
	return new Date(nowUtcMs + offsetMs(clockOf(timeZone), nowUtcMs)).toISOString().slice(0, 10);
}

/** No time zone is further than 14 hours from UTC, so a day on either side shows both offsets around a change. */
const AROUND_MS = 86_400_000;

/**
 * The instant at which a clock in `timeZone` shows `date` and `time`. An hour shown twice (clocks go back) means the
 * first: a cut-off must not reopen. An hour never shown (clocks go forward) is taken as if they had not yet moved.
 */
export function instantOf(date: string, time: string, timeZone: string): number {
	const key = `${date} ${time} ${timeZone}`;
	let instant = instants.get(key);
	if (instant === undefined) instants.set(key, (instant = findInstant(date, time, timeZone)));
	return instant;
}

/** A clock is dear to ask as well, and every note asks for the same few instants. */
const instants = new Map<string, number>();

function findInstant(date: string, time: string, timeZone: string): number {
	const day = dayMs(date);
	if (day === undefined) throw new RangeError(`instantOf: expected a real day as YYYY-MM-DD, got "${date}"`);
	const shown = day + Number(time.slice(0, 2)) * 3_600_000 + Number(time.slice(3)) * 60_000;
	const clock = clockOf(timeZone);
	const before = offsetMs(clock, shown - AROUND_MS);
	const after = offsetMs(clock, shown + AROUND_MS);
	const fits = [shown - before, shown - after].filter((instant) => instant + offsetMs(clock, instant) === shown);
	return fits.length > 0 ? Math.min(...fits) : shown - before;
}

/** Made once: a clock is dear, and dates are asked for with every note. */
const clocks = new Map<string, Intl.DateTimeFormat>();

function clockOf(timeZone: string): Intl.DateTimeFormat {
	let clock = clocks.get(timeZone);
	if (!clock) clocks.set(timeZone, (clock = newClock(timeZone)));
	return clock;
}

const newClock = (timeZone: string): Intl.DateTimeFormat =>
	new Intl.DateTimeFormat('en-u-ca-gregory-nu-latn', {
		timeZone,
		hourCycle: 'h23',
		year: 'numeric',
		month: 'numeric',
		day: 'numeric',
		hour: 'numeric',
		minute: 'numeric',
		second: 'numeric'
	});

/** How far a clock is ahead of UTC at an instant, in milliseconds. */
function offsetMs(clock: Intl.DateTimeFormat, instant: number): number {
	const shown: Record<string, number> = {};
	for (const { type, value } of clock.formatToParts(instant)) shown[type] = Number(value);
	const { year = 0, month = 1, day = 1, hour = 0, minute = 0, second = 0 } = shown;
	// The clock shows whole seconds; so must the instant that it is compared with.
	return Date.UTC(year, month - 1, day, hour, minute, second) - Math.floor(instant / 1000) * 1000;
}
