import type { Problem } from './election';

/**
 * More problems than this are left out, and the last entry says so: a file that is not an election file at all could
 * otherwise hold millions. Found by trial: nobody mends more than a few dozen before checking again.
 */
export const MOST_PROBLEMS = 1000;

/** Longest piece of a received text that is shown back. */
const SHOWN = 40;

/** Collects every problem of one document; nothing stops at the first. */
export class Report {
	readonly problems: Problem[] = [];
	#full = false;

	/** Adds a problem. `advice`, a whole sentence, says what to do where "change it" would not be enough. */
	add(
		path: string,
		expected: string,
		received: unknown,
		advice: string,
		severity: Problem['severity'] = 'error'
	): void {
		if (this.#full) return;
		if (this.problems.length === MOST_PROBLEMS) {
			this.#full = true;
			const message = `There are more than ${MOST_PROBLEMS} problems; the rest are left out. Mend these, then check again.`;
			this.problems.push({ path: '', expected: 'fewer problems', received: 'more', severity: 'error', message });
			return;
		}
		const what = received === undefined ? 'is missing' : `is ${describe(received)}`;
		const message = `${path === '' ? 'The file' : path} ${what}, expected ${expected}. ${advice}`;
		this.problems.push({ path, expected, received: describe(received), severity, message });
	}

	/** Like `add`, for what may be tried out but not given to voters. */
	hold(path: string, expected: string, received: unknown, advice: string): void {
		this.add(path, expected, received, advice, 'unpublishable');
	}
}

/** The path of a field of `path`, or of an element of a list. */
export function at(path: string, key: string | number): string {
	if (typeof key === 'number') return `${path}[${key}]`;
	const plain = /^[\w-]{1,60}$/.test(key) ? key : undefined;
	if (plain === undefined) return `${path}[${JSON.stringify(key.slice(0, SHOWN))}]`;
	return path === '' ? plain : `${path}.${plain}`;
}

/** What was found, in a few words; never more than a short piece of it. */
export function describe(value: unknown): string {
	if (value === undefined) return 'nothing';
	if (value === null) return 'null';
	if (Array.isArray(value)) return value.length === 0 ? 'an empty list' : `a list of ${value.length}`;
	if (typeof value === 'string') return JSON.stringify(value.length > SHOWN ? `${value.slice(0, SHOWN)}…` : value);
	if (typeof value === 'number' || typeof value === 'boolean') return String(value);
	return typeof value === 'object' ? 'an object' : `a ${typeof value}`;
}
