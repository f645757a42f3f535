import { MISTAKE_CODES } from './mistakeCodes';

/** What stands for a cell that is held back in a tally that is given out. */
export const HELD_BACK = 'suppressed';

/** Which election a tally is of, and on which office day it is given out. */
export interface TallyLabel {
	readonly election: string;
	readonly until: string;
}

/** What a cell's mistake code means, in English; empty for a cell that is no code. */
export const labelOfCell = (cell: string): string => MISTAKE_CODES.find(({ id }) => id === cell)?.label.en ?? '';

/** Rows as CSV (RFC 4180). */
export const csvOf = (rows: readonly (readonly string[])[]): string =>
	rows.map((row) => `${row.map(quoted).join(',')}\r\n`).join('');

/** In quotes where it must be; a leading sign is kept from a spreadsheet that would run it. */
function quoted(value: string): string {
	const safe = /^[=+\-@\t\r]/.test(value) ? `'${value}` : value;
	return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
