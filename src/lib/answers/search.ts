import MiniSearch, { type SearchOptions, type SearchResult } from 'minisearch';
import type { Answer } from '../../core/election/election';
import { nearestWord } from './nearestWord';
import { lexiconOf, slotsOut, sortOf, tokensOf } from './tokens';
import { wordsOf } from './words/wordsOf';

/** An answer found, with how well it fits; only the order of scores means anything. */
export interface Found {
	readonly id: string;
	readonly score: number;
}

/** Finds answers by callers' words in one language, best first. */
export type Search = (query: string) => readonly Found[];

/** A phrase of a caller is one document, so that a question close to it is not thinned by all the others. */
interface Phrase {
	readonly id: number;
	readonly phrase: string;
}

/** An answer as a whole is a document too: words that are spread over its phrases add up here. */
interface Whole {
	readonly id: number;
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
	const lexicon = lexiconOf(wordsOf(language));
	const known = new Set<string>();
	const options = {
		tokenize: (text: string) => {
			const tokens = tokensOf(text, lexicon);
			for (const token of tokens) if (sortOf(token) === 'word') known.add(token);
			return tokens;
		},
		processTerm: (term: string) => term
	};
	const phrases = new MiniSearch<Phrase>({ ...options, fields: ['phrase'] });
	const wholes = new MiniSearch<Whole>({ ...options, fields: ['title', 'phrases', 'text'] });
	/** Of each phrase, its answer's place in `answers`. */
	const answerOf: number[] = [];
	answers.forEach(({ title, text, callersWords }, id) => {
		const asked = [title[language] ?? '', ...(callersWords[language] ?? [])];
		for (const phrase of asked) phrases.add({ id: answerOf.push(id) - 1, phrase });
		wholes.add({ id, title: title[language] ?? '', phrases: asked.join('\n'), text: slotsOut(text[language] ?? '') });
	});
	for (const stem of lexicon.groups.keys()) known.add(stem);
	const begins = (stem: string): boolean => {
		for (const word of known) if (word.startsWith(stem)) return true;
		return false;
	};
	const mend = kept((stem: string) => (known.has(stem) || begins(stem) ? stem : (nearestWord(stem, known) ?? stem)));
	const searchOptions: SearchOptions = {
		// Asked for one word at a time.
		tokenize: (token) => [token],
		// A word that is not known may be the beginning of one: the voter is still typing.
		prefix: (term) => sortOf(term) === 'word' && term.length >= SHORTEST_PREFIX && !known.has(term),
		boostTerm: (term) => TERM_WEIGHTS[sortOf(term)],
		// Slips are mended before the search, with a swap of two letters as one slip.
		weights: { prefix: PREFIX_WEIGHT, fuzzy: 0 }
	};
	const inPhrases = kept((token: string) => hitsOf(phrases.search(token, searchOptions)));
	const inWholes = kept((token: string) => hitsOf(wholes.search(token, { ...searchOptions, boost: FIELD_WEIGHTS })));
	return (query) => {
		const tokens = tokensOf(query, lexicon, mend);
		const scores = new Float64Array(answers.length);
		const best = answers.map((): number[] => []);
		for (const [phrase, score] of sum(tokens, inPhrases, answerOf.length)) best[answerOf[phrase] ?? 0]?.push(score);
		best.forEach((own, at) => {
			const most = own.sort((a, b) => b - a).slice(0, PHRASES_SUMMED);
			scores[at] = most.reduce((total, score, n) => total + score * NEXT_PHRASE_WEIGHT ** n, 0);
		});
		for (const [at, score] of sum(tokens, inWholes, answers.length))
			scores[at] = (scores[at] ?? 0) + score * WHOLE_WEIGHT;
		return answers
			.map(({ id }, at) => ({ id, score: scores[at] ?? 0 }))
			.filter(({ score }) => score > 0)
			.sort((a, b) => b.score - a.score);
	};
}

/** Documents that one word finds, each with its score. */
type Hits = readonly (readonly [document: number, score: number])[];

const hitsOf = (results: readonly SearchResult[]): Hits => results.map(({ id, score }) => [id as number, score]);

/** For each document found the scores of all words together, times how many of them it has: as MiniSearch joins by OR. */
function sum(tokens: readonly string[], find: (token: string) => Hits, documents: number): Hits {
	const scores = new Float64Array(documents);
	const words = new Uint16Array(documents);
	const found: number[] = [];
	tokens.forEach((token, n) => {
		const again = tokens.indexOf(token) < n;
		for (const [document, score] of find(token)) {
			if (words[document] === 0) found.push(document);
			if (!again) words[document] = (words[document] ?? 0) + 1;
			scores[document] = (scores[document] ?? 0) + score;
		}
	});
	return found.map((document) => [document, (scores[document] ?? 0) * (words[document] ?? 0)]);
}

/** More words than this are forgotten and looked up anew. */
const MOST_KEPT = 1000;

/** What `look` gives for a word, kept: one letter more changes only the last word of a question. */
function kept<T>(look: (word: string) => T): (word: string) => T {
	const before = new Map<string, T>();
	return (word) => {
		const found = before.get(word);
		if (found !== undefined) return found;
		if (before.size >= MOST_KEPT) before.clear();
		const now = look(word);
		before.set(word, now);
		return now;
	};
}
