import { dayMs } from '../election/calendar';
import { instantOf } from '../election/dates';

const WHEN = /^(\d{4}-\d{2}-\d{2})(?:T((?:[01]\d|2[0-3]):[0-5]\d))?$/;

/**
 * The instant (milliseconds since 1970 in UTC) of a day "YYYY-MM-DD", or of a minute "YYYY-MM-DDTHH:MM", by a clock in
 * `timeZone`: "today" set by hand, for training. A day means its first moment, when all of the day's dates are still
 * ahead. Undefined for anything else.
 */
export function instantFrom(when: string, timeZone: string): number | undefined {
	const parts = WHEN.exec(when);
	const day = parts?.[1];
	if (day === undefined || dayMs(day) === undefined) return undefined;
	return instantOf(day, parts?.[2] ?? '00:00', timeZone);
}
