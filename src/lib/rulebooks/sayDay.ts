import { dayMs } from '$core/election/calendar';

/** A day with its year, as the language says it: "November 25, 2026". What is no real day is given back as it stands. */
export function sayDay(day: string, lang: string): string {
	const ms = dayMs(day);
	if (ms === undefined) return day;
	return new Intl.DateTimeFormat(`${lang}-US`, { timeZone: 'UTC', dateStyle: 'long' }).format(ms);
}
