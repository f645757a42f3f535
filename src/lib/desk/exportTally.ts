import { csvOf, HELD_BACK, labelOfCell, type TallyLabel } from '$core/answers/tallyFile';
import { LEAST_SHOWN, shownTally, type ShownCell, type Tally } from './tally';

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
	const rows = (table: string, cells: readonly ShownCell[]): string[][] =>
		cells.map(({ cell, calls }) => [table, cell, labelOfCell(cell), String(calls ?? HELD_BACK)]);
	return csvOf([
		['election', 'since', 'until', 'table', 'cell', 'label', 'calls'],
		...[...rows('code', codes), ...rows('language', languages), ...rows('hours', hours)].map((row) => [
			election,
			since,
			until,
			...row
		])
	]);
}
