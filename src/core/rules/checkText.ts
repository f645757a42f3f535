import { fields, LANGUAGE_TAG, words } from '../election/fields';
import { at, type Report } from '../election/report';

/** Languages in which every text of a rulebook must be there; others may be added. */
const LANGUAGES = ['en', 'es'] as const;

/** A text in English and Spanish, and in any other language besides. */
export function checkText(report: Report, value: unknown, path: string): void {
	const others =
		typeof value === 'object' && value !== null ? Object.keys(value).filter((tag) => LANGUAGE_TAG.test(tag)) : [];
	const text = fields(report, value, path, LANGUAGES, others);
	if (!text) return;
	for (const language of new Set([...LANGUAGES, ...others])) {
		// A sentence that is promised and not there is an error here: the reader sees it in place of the law.
		written(report, text[language], at(path, language), 'one plain sentence', 'Write it.');
	}
}

/** A text that must not be blank; elsewhere a blank one may be tried out. */
export function written(report: Report, value: unknown, path: string, expected: string, advice: string): void {
	if (typeof value === 'string' && value.trim() === '') report.add(path, expected, value, advice);
	else words(report, value, path);
}
