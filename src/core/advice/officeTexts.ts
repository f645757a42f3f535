import type { Election, Text } from '../election/election';
import { sayOn } from '../election/sayOn';
import { textIn } from '../election/text';

/**
 * The office's own words for a piece of advice (`path` is its `office`) as they read at the instant `nowUtcMs`
 * (milliseconds since 1970 in UTC): dates filled in, and what a date has ended replaced. [] where the office has none.
 */
export function officeTexts(election: Election, path: string, nowUtcMs: number, language: string): readonly string[] {
	return textsAt(election, path).map((text) =>
		sayOn(election, textIn(text, language, election.languages[0]), nowUtcMs, language)
	);
}

function textsAt(election: Election, path: string): readonly Text[] {
	let at: unknown = election;
	for (const step of path.split('.')) {
		if (typeof at !== 'object' || at === null || !Object.hasOwn(at, step)) return [];
		at = (at as Record<string, unknown>)[step];
	}
	if (Array.isArray(at)) return at as readonly Text[];
	return typeof at === 'object' && at !== null ? [at as Text] : [];
}
