import { en } from './en';
import { es } from './es';
import type { SearchWords } from './words';

const WORDS: Readonly<Record<string, SearchWords>> = { en, es };
/** For a language without a word list: nothing is left out and nothing is alike. */
const PLAIN: SearchWords = { drop: [], weak: [], phrases: [], alike: {}, stem: (word) => word };

/** What callers say in a language, by its tag. */
export const wordsOf = (language: string): SearchWords => WORDS[language.split('-')[0] ?? ''] ?? PLAIN;
