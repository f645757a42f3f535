import { MISTAKE_CODES } from '$core/answers/mistakeCodes';
import { LEAST_SHOWN, shownTally, type ShownCell, type Tally } from './tally';

/** What stands for a cell that is held back. */
const HELD_BACK = 'suppressed';

/** Which election a tally is of, and on which office day it is given out. */
export interface TallyLabel {
	readonly election: string;
	readonly until: string;
}

/** The tally as JSON, to be laid beside a tally of practice or of a count's own log: the codes are the same. */
export function tallyJson(tally: Tally, { election, until }: TallyLabel): string {
	const { since, codes, languages, hours } = shownTally(tally);
	const rows = (name: string, cells: readonly ShownCell[]) =>
		cells.map(({ cell, calls }) => ({ [name]: cell, calls: calls ?? HELD_BACK }));
	return `${JSON.stringify(
		{
			format: tally.format,
			election,
			since,
			until,
			suppressedUnder: LEAST_SHOWN,
			codes: rows('code', codes),
			languages: rows('language', languages),
			hours: rows('hours', hours)
		},
		undefined,
		'\t'
	)}\n`;
}

/** The same as CSV (RFC 4180), one line a cell. */
export function tallyCsv(tally: Tally, { election, until }: TallyLabel): string {
	const { since, codes, languages, hours } = shownTally(tally);
	const labels = new Map<string, string>(MISTAKE_CODES.map(({ id, label }) => [id, label.en]));
	const rows = (table: string, cells: readonly ShownCell[]): string[][] =>
		cells.map(({ cell, calls }) => [table, cell, labels.get(cell) ?? '', String(calls ?? HELD_BACK)]);
	return [
		['election', 'since', 'until', 'table', 'cell', 'label', 'calls'],
		...[...rows('code', codes), ...rows('language', languages), ...rows('hours', hours)].map((row) => [
			election,
			since,
			until,
			...row
		])
	]
		.map((row) => `${row.map(quoted).join(',')}\r\n`)
		.join('');
}

/** In quotes where it must be; a leading sign is kept from a spreadsheet that would run it. */
function quoted(value: string): string {
	const safe = /^[=+\-@\t\r]/.test(value) ? `'${value}` : value;
	return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
