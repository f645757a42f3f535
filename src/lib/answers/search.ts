import MiniSearch, { type Options, type SearchOptions } from 'minisearch';
import type { Answer } from '../../core/election/election';
import { slotsOut, sortOf, tokensOf } from './tokens';
import { en } from './words/en';
import { es } from './words/es';
import type { SearchWords } from './words/words';

/** An answer found, with how well it fits; only the order of scores means anything. */
export interface Found {
	readonly id: string;
	readonly score: number;
}

/** Finds answers by callers' words in one language. */
export type Search = (query: string) => readonly Found[];

const WORDS: Readonly<Record<string, SearchWords>> = { en, es };
/** For a language without a word list: nothing is left out and nothing is alike. */
const PLAIN: SearchWords = { stop: [], phrases: [], alike: {}, stem: (word) => word };

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

/** All weights below were found by trial on the tuning half of the phrasings in `tests/core/answers`. */
const PHRASE_WEIGHT = 1;
const WHOLE_WEIGHT = 0.6;
const BOOST = { title: 1.5, phrases: 1, text: 0.25 };

export const TUNE = { boost: { word: 1, alike: 1, weak: 0.35, pair: 1 }, prefix: 0.4, fuzzy: 0.3, whole: 0.6, k: 1.2, b: 0.7, d: 0.5 };

/** Opens the search over the answers in a language. Building takes some tens of milliseconds; do it once. */
export function openSearch(answers: readonly Answer[], language: string): Search {
	const words = WORDS[language.split('-')[0] ?? ''] ?? PLAIN;
	const options = optionsOf(words);
	const phrases = new MiniSearch<Phrase>({ ...options, fields: ['phrase'], storeFields: ['answer'] });
	const wholes = new MiniSearch<Whole>({ ...options, fields: ['title', 'phrases', 'text'] });
	for (const { id, title, text, callersWords } of answers) {
		const asked = [title[language] ?? '', ...(callersWords[language] ?? [])];
		for (const phrase of asked) phrases.add({ id: phrases.documentCount, answer: id, phrase });
		wholes.add({
			id,
			title: title[language] ?? '',
			phrases: asked.join('\n'),
			text: slotsOut(text[language] ?? '')
		});
	}
	return (query) => {
		const scores = new Map<string, number>();
		for (const { score, ...hit } of phrases.search(query)) {
			const answer = hit['answer'] as string;
			scores.set(answer, Math.max(scores.get(answer) ?? 0, score * PHRASE_WEIGHT));
		}
		for (const { id, score } of wholes.search(query, { boost: BOOST }))
			scores.set(id as string, (scores.get(id as string) ?? 0) + score * TUNE.whole);
		return [...scores].map(([id, score]) => ({ id, score })).sort((a, b) => b.score - a.score);
	};
}

/** A word of at least so many letters may be a slip of another; shorter ones are other words. */
const SHORTEST_SLIP = 5;

function optionsOf(words: SearchWords): Pick<Options, 'tokenize' | 'processTerm' | 'searchOptions'> {
	const searchOptions: SearchOptions = {
		prefix: (term) => sortOf(term) === 'word' && term.length > 2,
		fuzzy: (term) => (sortOf(term) !== 'word' || term.length < SHORTEST_SLIP ? false : 0.25),
		boostTerm: (term) => TUNE.boost[sortOf(term)],
		weights: { prefix: TUNE.prefix, fuzzy: TUNE.fuzzy },
		bm25: { k: TUNE.k, b: TUNE.b, d: TUNE.d }
	};
	return { tokenize: (text) => tokensOf(text, words), processTerm: (term) => term, searchOptions };
}
