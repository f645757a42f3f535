import { MISTAKE_CODES, type MistakeCodeId } from '$core/answers/mistakeCodes';
import { LEAST_SHOWN, shownCounts, type ShownCount } from '$core/answers/shownCounts';

/** A person's first reading, before any feedback, and their last sheet when they end. */
export const MOMENTS = ['before', 'after'] as const;
export type Moment = (typeof MOMENTS)[number];

/** Sheets that got ink, and sheets tallied at each moment. */
export const SHEET_CELLS = ['started', ...MOMENTS] as const;

export const EVENT_CODES: readonly string[] = MISTAKE_CODES.map(({ id }) => id);

export { LEAST_SHOWN };

type Cells = Readonly<Record<string, number>>;

/**
 * On how many sheets of an event each mistake was found; a cell that is not there is 0. Nothing of one person, contest
 * or choice is kept, and no time finer than a day.
 */
export interface EventTally {
	readonly format: 'fairhand-event/1';
	/** The office's first day with a sheet. */
	readonly since: string;
	readonly sheets: Cells;
	readonly before: Cells;
	readonly after: Cells;
}

/** The tally with one sheet more that got its first ink on an office day. */
export function withStarted(tally: EventTally | undefined, day: string): EventTally {
	const all = onDay(tally, day);
	return { ...all, sheets: plusOne(all.sheets, 'started') };
}

/** The tally with one sheet more at a moment. A mistake is one for the sheet, in however many contests it was made. */
export function withSheet(
	tally: EventTally | undefined,
	moment: Moment,
	codes: readonly MistakeCodeId[],
	day: string
): EventTally {
	for (const code of codes)
		if (!EVENT_CODES.includes(code)) throw new RangeError(`withSheet: expected a mistake code, got "${code}"`);
	const all = onDay(tally, day);
	return {
		...all,
		sheets: plusOne(all.sheets, moment),
		[moment]: [...new Set(codes)].reduce<Cells>(plusOne, all[moment])
	};
}

export interface ShownEvent {
	readonly since: string;
	readonly sheets: readonly ShownCount[];
	readonly before: readonly ShownCount[];
	readonly after: readonly ShownCount[];
}

/** The tally as it is given out, small cells held back. */
export const shownEvent = ({ since, sheets, before, after }: EventTally): ShownEvent => ({
	since,
	sheets: shownCounts(sheets, SHEET_CELLS),
	before: shownCounts(before, EVENT_CODES),
	after: shownCounts(after, EVENT_CODES)
});

/** One mistake at both moments: a number of sheets, or undefined where it is held back. */
export interface ShownMistake {
	readonly code: string;
	readonly before: number | undefined;
	readonly after: number | undefined;
}

/** The two tables side by side, for mistakes found at either moment. */
export function shownMistakes({ before, after }: Pick<ShownEvent, Moment>): readonly ShownMistake[] {
	return EVENT_CODES.filter((code) => [...before, ...after].some(({ cell }) => cell === code)).map((code) => ({
		code,
		before: shownIn(before, code),
		after: shownIn(after, code)
	}));
}

/** The number in a cell, or undefined where it is held back. */
export function shownIn(cells: readonly ShownCount[], cell: string): number | undefined {
	const found = cells.find((one) => one.cell === cell);
	return found ? found.count : 0;
}

/** A tally kept on a device, or undefined where the text is none. */
export function parseEvent(text: string): EventTally | undefined {
	let value: unknown;
	try {
		value = JSON.parse(text);
	} catch {
		return undefined;
	}
	if (typeof value !== 'object' || value === null) return undefined;
	const { format, since, sheets, before, after } = value as Partial<Record<keyof EventTally, unknown>>;
	if (format !== 'fairhand-event/1' || typeof since !== 'string' || !/^\d{4}-\d{2}-\d{2}$/.test(since))
		return undefined;
	if (!isTable(sheets, SHEET_CELLS) || !isTable(before, EVENT_CODES) || !isTable(after, EVENT_CODES)) return undefined;
	// No mistake on more sheets than there were.
	const fits = (cells: Cells, moment: Moment) => Object.values(cells).every((count) => count <= (sheets[moment] ?? 0));
	return fits(before, 'before') && fits(after, 'after') ? { format, since, sheets, before, after } : undefined;
}

function isTable(value: unknown, known: readonly string[]): value is Cells {
	return (
		typeof value === 'object' &&
		value !== null &&
		!Array.isArray(value) &&
		Object.entries(value).every(([cell, count]) => known.includes(cell) && Number.isInteger(count) && count > 0)
	);
}

const plusOne = (cells: Cells, cell: string): Cells => ({ ...cells, [cell]: (cells[cell] ?? 0) + 1 });

/** The tally, or an empty one, that holds a sheet of `day`. */
function onDay(tally: EventTally | undefined, day: string): EventTally {
	if (!tally) return { format: 'fairhand-event/1', since: day, sheets: {}, before: {}, after: {} };
	return { ...tally, since: tally.since < day ? tally.since : day };
}
