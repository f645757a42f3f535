import type { Answer } from '../../core/election/election';
import { fold, wordsIn } from './tokens';
import { wordsOf } from './words/wordsOf';

/** As much of what was typed as is made of known words. */
export type Typing = (typed: string) => string;

/**
 * A field that takes nothing but words of the answers: their titles, callers' words for them, and words that mean the
 * same. Typing stops at the first letter that begins none of them, and a space is taken only after a whole word, so that
 * no name of a person or a party can be typed into it.
 */
export function knownWords(answers: readonly Answer[], language: string): Typing {
	const { drop, weak, alike, stem } = wordsOf(language);
	const known = new Set<string>();
	for (const { title, callersWords } of answers)
		for (const text of [title[language] ?? '', ...(callersWords[language] ?? [])])
			for (const word of wordsIn(fold(text))) known.add(word);
	for (const word of [...drop, ...weak, ...Object.values(alike).flat()]) known.add(fold(word));
	const stems = new Set([...known].map(stem));
	const isWhole = (word: string): boolean => known.has(word) || stems.has(stem(word));
	const begins = (word: string): boolean => isWhole(word) || [...known].some((one) => one.startsWith(word));

	return (typed) => {
		let kept = '';
		let word = '';
		for (const letter of typed) {
			if (wordsIn(fold(letter)).length === 0) {
				if (word !== '' && !isWhole(word)) return kept;
				word = '';
			} else {
				const longer = word + wordsIn(fold(letter)).join('');
				if (!begins(longer)) return kept;
				word = longer;
			}
			kept += letter;
		}
		return kept;
	};
}
