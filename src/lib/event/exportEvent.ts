import { MISTAKE_CODES } from '$core/answers/mistakeCodes';
import type { ShownCount } from '$core/answers/shownCounts';
import type { TallyLabel } from '$lib/desk/exportTally';
import { LEAST_SHOWN, shownEvent, type EventTally } from './eventTally';

/** What stands for a cell that is held back, as in the tally of calls. */
const HELD_BACK = 'suppressed';

/** The tally as JSON, to be laid beside the tally of calls: the codes are the same. */
export function eventJson(tally: EventTally, { election, until }: TallyLabel): string {
	const { since, sheets, before, after } = shownEvent(tally);
	const rows = (name: string, cells: readonly ShownCount[]) =>
		cells.map(({ cell, count }) => ({ [name]: cell, sheets: count ?? HELD_BACK }));
	return `${JSON.stringify(
		{
			format: tally.format,
			election,
			since,
			until,
			suppressedUnder: LEAST_SHOWN,
			sheets: rows('moment', sheets),
			before: rows('code', before),
			after: rows('code', after)
		},
		undefined,
		'\t'
	)}\n`;
}

/** The same as CSV (RFC 4180), one line a cell. */
export function eventCsv(tally: EventTally, { election, until }: TallyLabel): string {
	const { since, sheets, before, after } = shownEvent(tally);
	const labels = new Map<string, string>(MISTAKE_CODES.map(({ id, label }) => [id, label.en]));
	const rows = (table: string, cells: readonly ShownCount[]): string[][] =>
		cells.map(({ cell, count }) => [table, cell, quoted(labels.get(cell) ?? ''), String(count ?? HELD_BACK)]);
	return [
		['election', 'since', 'until', 'table', 'cell', 'label', 'sheets'],
		...[...rows('sheets', sheets), ...rows('before', before), ...rows('after', after)].map((row) => [
			election,
			since,
			until,
			...row
		])
	]
		.map((row) => `${row.join(',')}\r\n`)
		.join('');
}

/** Labels are sentences of our own list and may hold a comma; ids and days hold none. */
const quoted = (label: string): string => (label.includes(',') ? `"${label}"` : label);
