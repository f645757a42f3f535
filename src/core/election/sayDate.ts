import { dayMs } from './calendar';
import type { OfficeDate } from './dates';

/** Offices that use this app are in the United States: "es" alone would give a clock of 24 hours. */
const REGION = 'US';

/**
 * A day and, where it has one, its hour, as they are said in a language: "Monday, September 6, 5 PM". The year is left
 * out, since all of an election's dates are near. Throws a RangeError when `date` is not a real day.
 */
export function sayDate({ date, time }: OfficeDate, language: string): string {
	const day = dayMs(date);
	if (day === undefined) throw new RangeError(`sayDate: expected a real day as YYYY-MM-DD, got "${date}"`);
	const locale = language.includes('-') ? language : `${language}-${REGION}`;
	const said = new Intl.DateTimeFormat(locale, {
		timeZone: 'UTC',
		weekday: 'long',
		month: 'long',
		day: 'numeric'
	}).format(day);
	return time === undefined ? said : `${said}, ${sayTime(time, day, locale)}`;
}

function sayTime(time: string, day: number, locale: string): string {
	const [hour = 0, minute = 0] = time.split(':').map(Number);
	const shown: Intl.DateTimeFormatOptions = minute === 0 ? {} : { minute: '2-digit' };
	return new Intl.DateTimeFormat(locale, { timeZone: 'UTC', hour: 'numeric', ...shown })
		.format(day + hour * 3_600_000 + minute * 60_000)
		.replace(/[\u00A0\u202F]/g, ' ');
}
