import { dayMs } from './calendar';
import { at, describe, type Report } from './report';

/**
 * Small checkers of one field each. All of them report what is wrong and give back the value where it is right,
 * else undefined. A missing value is silently undefined: `fields` has reported it where it is required.
 */

/** The most entries a list may have; a longer one is reported and not looked into. The largest counties have a few thousand precincts. */
const LONGEST_LIST = 10_000;

/** The most characters of one text: a measure's full text fits, a pasted book does not. */
const LONGEST_TEXT = 20_000;

/** The dates that an election may have. */
export const DATE_IDS = [
	'mailing',
	'mailing.overseas',
	'replacement.mail',
	'replacement.in-person',
	'registration',
	'return',
	'cure'
] as const;

/** Letters and digits in groups: safe in a file name, an address and a QR code. */
const ID = /^[a-z0-9]+(?:-[a-z0-9]+)*$/;
const LONGEST_ID = 64;
const ID_EXPECTED = `an id of at most ${LONGEST_ID} small letters, digits and single hyphens`;

/** BCP 47 as far as a file needs it: a language, then script, region or variant. */
export const LANGUAGE_TAG = /^[a-z]{2,3}(?:-[A-Za-z0-9]{2,8}){0,4}$/;

export type Fields = Readonly<Record<string, unknown>>;

/** An object with all of `required` and nothing besides these and `optional`. */
export function fields(
	report: Report,
	value: unknown,
	path: string,
	required: readonly string[],
	optional: readonly string[] = []
): Fields | undefined {
	const found = object(report, value, path);
	if (!found) return undefined;
	for (const name of required)
		if (!Object.hasOwn(found, name))
			report.add(at(path, name), `a value for "${name}"`, undefined, `Add it${path === '' ? '' : ` to ${path}`}.`);
	refuseOthers(report, found, path, [...required, ...optional]);
	// Only own fields, so that what an object inherits is never taken for a value of the file.
	return Object.assign(Object.create(null) as object, found);
}

/** An object, whatever is in it. */
export function object(report: Report, value: unknown, path: string): Fields | undefined {
	if (value === undefined) return undefined;
	if (typeof value === 'object' && value !== null && !Array.isArray(value)) return value as Fields;
	report.add(path, 'an object', value, 'Put an object { … } here.');
	return undefined;
}

function refuseOthers(report: Report, found: Fields, path: string, known: readonly string[]): void {
	for (const name of Object.keys(found)) {
		if (known.includes(name)) continue;
		report.add(
			at(path, name),
			'no such field',
			found[name],
			`Remove it, or correct its name; the fields here are ${known.join(', ')}.`
		);
	}
}

/** A list; with `least`, of at least so many. Gives [] where it is none. */
export function list(report: Report, value: unknown, path: string, least = 0): readonly unknown[] {
	if (value === undefined) return [];
	if (!Array.isArray(value)) {
		report.add(path, 'a list', value, 'Put a list [ … ] here.');
		return [];
	}
	const entries = value as readonly unknown[];
	if (entries.length < least)
		report.add(path, `a list of at least ${least}`, entries, `Add at least ${least - entries.length} more.`);
	if (entries.length <= LONGEST_LIST) return entries;
	report.add(path, `a list of at most ${LONGEST_LIST}`, entries, 'Split the file; nothing in this list was checked.');
	return [];
}

/** A text of one line or more. A blank one may be tried out, not published. */
export function words(report: Report, value: unknown, path: string): string | undefined {
	if (value === undefined) return undefined;
	if (typeof value !== 'string') {
		report.add(path, 'a text', value, 'Put a text in double quotes here.');
		return undefined;
	}
	if (value.length > LONGEST_TEXT) {
		report.add(path, `at most ${LONGEST_TEXT} characters`, value, `Shorten it; it has ${value.length}.`);
		return undefined;
	}
	if (value.trim() === '') report.hold(path, 'a text that is not blank', value, 'Write it before you publish.');
	return value;
}

/** What stands elsewhere as a line, in other languages: in whichever it has. */
export function inOthers(report: Report, value: unknown, path: string): void {
	const isObject = typeof value === 'object' && value !== null;
	const tags = isObject ? Object.keys(value).filter((tag) => LANGUAGE_TAG.test(tag)) : [];
	const found = fields(report, value, path, [], tags);
	for (const tag of tags) words(report, found?.[tag], at(path, tag));
}

/** A text of a form; `expected` says which. */
export function pattern(
	report: Report,
	value: unknown,
	path: string,
	form: RegExp,
	expected: string
): string | undefined {
	if (value === undefined) return undefined;
	if (typeof value === 'string' && value.length <= LONGEST_TEXT && form.test(value)) return value;
	report.add(path, expected, value, 'Change it.');
	return undefined;
}

export function identifier(report: Report, value: unknown, path: string): string | undefined {
	if (typeof value === 'string' && value.length > LONGEST_ID) {
		report.add(path, ID_EXPECTED, value, `Shorten it; it has ${value.length} characters.`);
		return undefined;
	}
	return pattern(report, value, path, ID, ID_EXPECTED);
}

/** A longer list buries the message; the schema has them all. */
const MOST_OPTIONS_SHOWN = 12;

/** One of a few words; `advice` says what to do where "use one of these" would not be enough. */
export function oneOf<T extends string | number>(
	report: Report,
	value: unknown,
	path: string,
	options: readonly T[],
	advice = options.length === 1 ? 'Nothing else fits here.' : 'Use one of these.'
): T | undefined {
	if (value === undefined) return undefined;
	const found = options.find((option) => option === value);
	if (found !== undefined) return found;
	const shown = options.slice(0, MOST_OPTIONS_SHOWN).map(describe).join(', ');
	const expected = options.length > MOST_OPTIONS_SHOWN ? `${shown}, … (${options.length} in all)` : shown;
	report.add(path, options.length === 1 ? expected : `one of ${expected}`, value, advice);
	return undefined;
}

export function flag(report: Report, value: unknown, path: string): boolean | undefined {
	if (value === undefined) return undefined;
	if (typeof value === 'boolean') return value;
	report.add(path, 'true or false', value, 'Write true or false, without quotes.');
	return undefined;
}

/** A number from `low` to `high`, both included. */
export function number(report: Report, value: unknown, path: string, low: number, high: number): number | undefined {
	if (value === undefined) return undefined;
	if (typeof value === 'number' && value >= low && value <= high) return value;
	report.add(path, `a number from ${low} to ${high}`, value, 'Change it.');
	return undefined;
}

/** A whole number from `low` to `high`, both included. */
export function whole(report: Report, value: unknown, path: string, low: number, high: number): number | undefined {
	if (value === undefined) return undefined;
	if (Number.isInteger(value) && (value as number) >= low && (value as number) <= high) return value as number;
	report.add(path, `a whole number from ${low} to ${high}`, value, 'Change it.');
	return undefined;
}

/** A day that the calendar has, "YYYY-MM-DD". */
export function day(report: Report, value: unknown, path: string): string | undefined {
	if (value === undefined) return undefined;
	if (typeof value === 'string' && dayMs(value) !== undefined) return value;
	report.add(path, 'a real day as YYYY-MM-DD', value, 'Write a day that the calendar has.');
	return undefined;
}
