import type { SearchWords } from './words/words';

/** Marks the name of a group of words alike, so that it is never taken for a word. */
const ALIKE = '~';
/** Marks a word that says little by itself. */
const WEAK = '.';
/** Joins two words that follow each other: "not sign" asks something else than "sign". */
const PAIR = '+';

/** What a token is, for its weight. */
export const sortOf = (token: string): 'word' | 'alike' | 'weak' | 'pair' =>
	token.startsWith(WEAK) ? 'weak' : token.includes(PAIR) ? 'pair' : token.startsWith(ALIKE) ? 'alike' : 'word';


interface Prepared {
	readonly stop: ReadonlySet<string>;
	/** By stem: the groups it belongs to. */
	readonly groups: ReadonlyMap<string, readonly string[]>;
}
const prepared = new WeakMap<SearchWords, Prepared>();

/** A text's words as the search knows them: folded, without endings, each with the names of the groups it is in. */
export function tokensOf(text: string, words: SearchWords): string[] {
	const { stop, groups } = prepare(words);
	let folded = fold(text);
	for (const [find, word] of words.phrases) folded = folded.replace(find, ` ${word} `);
	const plain = folded.match(/[\p{L}\p{N}]+/gu) ?? [];
	const tokens: string[] = [];
	let before = '';
	for (const word of plain) {
		if (stop.has(word)) {
			tokens.push(WEAK + word);
			continue;
		}
		const stem = words.stem(word);
		const alike = groups.get(stem) ?? [];
		tokens.push(stem, ...alike);
		const main = alike[0] ?? stem;
		if (before !== '') tokens.push(before + PAIR + main);
		before = main;
	}
	return tokens;
}

/** The text without what stands in double braces. */
export const slotsOut = (text: string): string => text.replace(/{{[^{}]*}}/g, ' ');

const fold = (text: string): string =>
	text
		.normalize('NFD')
		.replace(/[\u0300-\u036F]/g, '')
		.toLowerCase()
		.replace(/[’‘]/g, "'");

function prepare(words: SearchWords): Prepared {
	const known = prepared.get(words);
	if (known) return known;
	const groups = new Map<string, string[]>();
	for (const [name, alike] of Object.entries(words.alike))
		for (const stem of new Set(alike.map(words.stem))) groups.set(stem, [...(groups.get(stem) ?? []), ALIKE + name]);
	const made = { stop: new Set(words.stop), groups };
	prepared.set(words, made);
	return made;
}
