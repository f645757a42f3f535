import type { SearchWords } from './words/words';

/** Marks the name of a group of words alike, so that it is never taken for a word. */
const ALIKE = '~';
/** Marks a word that says little by itself. */
const WEAK = '.';

/** What a token is, for its weight. */
export const sortOf = (token: string): 'word' | 'alike' | 'weak' =>
	token.startsWith(WEAK) ? 'weak' : token.startsWith(ALIKE) ? 'alike' : 'word';

/** A language's words, laid out to be looked up. */
export interface Lexicon {
	readonly words: SearchWords;
	readonly drop: ReadonlySet<string>;
	readonly weak: ReadonlySet<string>;
	/** By stem: the groups it belongs to. */
	readonly groups: ReadonlyMap<string, readonly string[]>;
}

export function lexiconOf(words: SearchWords): Lexicon {
	const groups = new Map<string, string[]>();
	for (const [name, alike] of Object.entries(words.alike))
		for (const stem of new Set(alike.map(words.stem))) groups.set(stem, [...(groups.get(stem) ?? []), ALIKE + name]);
	return { words, drop: new Set(words.drop), weak: new Set(words.weak), groups };
}

/**
 * A text's words as the search knows them: folded, without endings, each followed by the groups it is in. `mend`
 * may put another stem in place of one.
 */
export function tokensOf(text: string, lexicon: Lexicon, mend: (stem: string) => string = (stem) => stem): string[] {
	const { words, drop, weak, groups } = lexicon;
	let folded = fold(text);
	for (const [find, word] of words.phrases) folded = folded.replace(find, ` ${word} `);
	const tokens: string[] = [];
	for (const word of wordsIn(folded)) {
		if (drop.has(word)) continue;
		if (weak.has(word)) {
			tokens.push(WEAK + word);
			continue;
		}
		const stem = mend(words.stem(word));
		tokens.push(stem, ...(groups.get(stem) ?? []));
	}
	return tokens;
}

/** The text without what stands in double braces. */
export const slotsOut = (text: string): string => text.replace(/{{[^{}]*}}/g, ' ');

/** The words of a folded text, in order. */
export const wordsIn = (folded: string): readonly string[] => folded.match(/[\p{L}\p{N}]+/gu) ?? [];

/** In small letters, without accents. */
export const fold = (text: string): string =>
	text
		.normalize('NFD')
		.replace(/[\u0300-\u036F]/g, '')
		.toLowerCase()
		.replace(/[’‘]/g, "'");
