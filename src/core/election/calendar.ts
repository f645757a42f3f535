/** Milliseconds of a day in UTC, which has no daylight saving; leap seconds do not exist in this arithmetic. */
const DAY_MS = 86_400_000;

const PLAIN_DATE = /^([12]\d{3})-(\d{2})-(\d{2})$/;

/**
 * Milliseconds from 1970-01-01 to a plain date "YYYY-MM-DD" of the years 1000 to 2999, as if it were UTC; undefined
 * for anything else, and for days that no calendar has, such as 2027-02-29.
 */
export function dayMs(date: string): number | undefined {
	const parts = PLAIN_DATE.exec(date);
	if (!parts) return undefined;
	const ms = Date.UTC(Number(parts[1]), Number(parts[2]) - 1, Number(parts[3]));
	return plainDate(ms) === date ? ms : undefined;
}

/** The plain date `days` after (before, where negative) `date`. Throws a RangeError when `date` is not a real day. */
export function addDays(date: string, days: number): string {
	const start = dayMs(date);
	if (start === undefined) throw new RangeError(`addDays: expected a real day as YYYY-MM-DD, got "${date}"`);
	return plainDate(start + days * DAY_MS);
}

const plainDate = (ms: number): string => new Date(ms).toISOString().slice(0, 10);
