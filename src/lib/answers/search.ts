import MiniSearch, { type SearchOptions } from 'minisearch';
import type { Answer } from '../../core/election/election';
import { nearestWord } from './nearestWord';
import { lexiconOf, slotsOut, sortOf, tokensOf } from './tokens';
import { en } from './words/en';
import { es } from './words/es';
import type { SearchWords } from './words/words';

/** An answer found, with how well it fits; only the order of scores means anything. */
export interface Found {
	readonly id: string;
	readonly score: number;
}

/** Finds answers by callers' words in one language, best first. */
export type Search = (query: string) => readonly Found[];

const WORDS: Readonly<Record<string, SearchWords>> = { en, es };
/** For a language without a word list: nothing is left out and nothing is alike. */
const PLAIN: SearchWords = { drop: [], weak: [], phrases: [], alike: {}, stem: (word) => word };

/** A phrase of a caller is one document, so that a question close to it is not thinned by all the others. */
interface Phrase {
	readonly id: number;
	readonly answer: string;
	readonly phrase: string;
}

/** An answer as a whole is a document too: words that are spread over its phrases add up here. */
interface Whole {
	readonly id: string;
	readonly title: string;
	readonly phrases: string;
	readonly text: string;
}

/*
 * The weights below were found by trial on the tuning part of the phrasings in `tests/core/answers`. Around them the
 * figures change little: what decides is the words in the ledger.
 */

/** A word itself, the group it is in, and a word that says little. */
const TERM_WEIGHTS = { word: 1, alike: 0.75, weak: 0.5 };
/** Of a word's beginning, against the whole word. */
const PREFIX_WEIGHT = 0.4;
/** Of an answer's second-best phrase, and squared of its third, against its best: several near phrases beat a lucky one. */
const NEXT_PHRASE_WEIGHT = 0.3;
const PHRASES_SUMMED = 3;
/** Of the answer as a whole, against its best phrase. */
const WHOLE_WEIGHT = 0.8;
const FIELD_WEIGHTS = { title: 1.5, phrases: 1, text: 0.25 };
/** A shorter piece of a word begins too many. */
const SHORTEST_PREFIX = 3;

/** Opens the search over the answers in a language. Building takes some tens of milliseconds; do it once. */
export function openSearch(answers: readonly Answer[], language: string): Search {
	const lexicon = lexiconOf(WORDS[language.split('-')[0] ?? ''] ?? PLAIN);
	const known = new Set<string>();
	const options = {
		tokenize: (text: string) => {
			const tokens = tokensOf(text, lexicon);
			for (const token of tokens) if (sortOf(token) === 'word') known.add(token);
			return tokens;
		},
		processTerm: (term: string) => term
	};
	const phrases = new MiniSearch<Phrase>({ ...options, fields: ['phrase'], storeFields: ['answer'] });
	const wholes = new MiniSearch<Whole>({ ...options, fields: ['title', 'phrases', 'text'] });
	for (const { id, title, text, callersWords } of answers) {
		const asked = [title[language] ?? '', ...(callersWords[language] ?? [])];
		for (const phrase of asked) phrases.add({ id: phrases.documentCount, answer: id, phrase });
		wholes.add({ id, title: title[language] ?? '', phrases: asked.join('\n'), text: slotsOut(text[language] ?? '') });
	}
	for (const stem of lexicon.groups.keys()) known.add(stem);
	const begins = (stem: string): boolean => {
		for (const word of known) if (word.startsWith(stem)) return true;
		return false;
	};
	const mend = (stem: string): string => (known.has(stem) || begins(stem) ? stem : (nearestWord(stem, known) ?? stem));
	const searchOptions: SearchOptions = {
		tokenize: (query) => tokensOf(query, lexicon, mend),
		// A word that is not known may be the beginning of one: the voter is still typing.
		prefix: (term) => sortOf(term) === 'word' && term.length >= SHORTEST_PREFIX && !known.has(term),
		boostTerm: (term) => TERM_WEIGHTS[sortOf(term)],
		// Slips are mended before the search, with a swap of two letters as one slip.
		weights: { prefix: PREFIX_WEIGHT, fuzzy: 0 }
	};
	return (query) => {
		const scores = new Map<string, number>();
		const seen = new Map<string, number>();
		for (const { score, ...hit } of phrases.search(query, searchOptions)) {
			const answer = hit['answer'] as string;
			const n = seen.get(answer) ?? 0;
			if (n < PHRASES_SUMMED) scores.set(answer, (scores.get(answer) ?? 0) + score * NEXT_PHRASE_WEIGHT ** n);
			seen.set(answer, n + 1);
		}
		for (const { id, score } of wholes.search(query, { ...searchOptions, boost: FIELD_WEIGHTS }))
			scores.set(id as string, (scores.get(id as string) ?? 0) + score * WHOLE_WEIGHT);
		return [...scores].map(([id, score]) => ({ id, score })).sort((a, b) => b.score - a.score);
	};
}
