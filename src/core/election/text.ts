import type { Cited, Text } from './election';

/**
 * A text in `language`; where it has none (or a blank one), in `fallback`; where it has neither, in any language it
 * has, and '' when it is empty. Nobody is left before an empty line because a translation is late.
 */
export function textIn(text: Text, language: string, fallback = 'en'): string {
	return written(text, language) ?? written(text, fallback) ?? Object.values(text).find(notBlank) ?? '';
}

/** Words that stand as they are, except in a language in which `others` has them. */
export const saidIn = (words: string, others: Text | undefined, language: string): string =>
	(others && written(others, language)) ?? words;

/** The citation in `language`, and as it stands where it has none in that. */
export const citationIn = ({ cite, citeIn }: Cited, language: string): string => saidIn(cite, citeIn, language);

/** Own fields only: a language tag from outside may be "constructor". */
const written = (text: Text, language: string): string | undefined => {
	const found = Object.hasOwn(text, language) ? text[language] : undefined;
	return found !== undefined && notBlank(found) ? found : undefined;
};

const notBlank = (words: string): boolean => words.trim() !== '';
