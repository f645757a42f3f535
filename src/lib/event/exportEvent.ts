import type { ShownCount } from '$core/answers/shownCounts';
import { csvOf, HELD_BACK, labelOfCell, type TallyLabel } from '$core/answers/tallyFile';
import { LEAST_SHOWN, shownEvent, type EventTally } from './eventTally';

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
	const rows = (table: string, cells: readonly ShownCount[]): string[][] =>
		cells.map(({ cell, count }) => [table, cell, labelOfCell(cell), String(count ?? HELD_BACK)]);
	return csvOf([
		['election', 'since', 'until', 'table', 'cell', 'label', 'sheets'],
		...[...rows('sheets', sheets), ...rows('before', before), ...rows('after', after)].map((row) => [
			election,
			since,
			until,
			...row
		])
	]);
}
