import { object, words } from './fields';
import { at, type Report } from './report';

/** What every part of the check needs: where problems go, and the languages that each text must have. */
export interface Scope {
	readonly report: Report;
	readonly languages: readonly string[];
	/** Whether all of the file's languages are known; where one is misspelt, its texts must not be reported too. */
	readonly allLanguages: boolean;
}

/** A text in every language of the file. */
export function text({ report, languages, allLanguages }: Scope, value: unknown, path: string): void {
	const found = object(report, value, path);
	if (!found) return;
	for (const language of languages)
		if (!Object.hasOwn(found, language))
			report.add(at(path, language), `the text in "${language}"`, undefined, `Add it, as "languages" names it.`);
	for (const [language, line] of Object.entries(found)) {
		words(report, line ?? null, at(path, language));
		if (allLanguages && !languages.includes(language))
			report.hold(
				at(path, language),
				`a language of the file (${languages.join(', ')})`,
				line,
				'Remove it, or add it to "languages".'
			);
	}
}

/** Reports an id that `seen` already holds; adds it otherwise. */
export function unique(report: Report, seen: Set<string>, id: string | undefined, path: string): void {
	if (id === undefined) return;
	if (seen.has(id)) report.add(path, 'an id that is not used above', id, 'Give it another one, or remove this entry.');
	seen.add(id);
}

/** Reports an id that `known` does not hold. Silent where the list to look it up in is itself missing. */
export function known(
	report: Report,
	ids: ReadonlySet<string> | undefined,
	id: string | undefined,
	path: string,
	what: string
): void {
	if (id === undefined || ids === undefined || ids.has(id)) return;
	report.add(path, `the id of a ${what} of this file`, id, `Correct it, or add that ${what}.`);
}
