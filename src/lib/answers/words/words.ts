/** What a language's callers say, as far as a search has to know. All in small letters and without accents. */
export interface SearchWords {
	/** Words that say nothing and stand in most questions; they are not looked at. */
	readonly drop: readonly string[];
	/** Words that say little about what is asked; they weigh less. */
	readonly weak: readonly string[];
	/** Phrases read as one word, before words are parted: what the pattern finds, and the word that stands for it. */
	readonly phrases: readonly (readonly [find: RegExp, word: string])[];
	/** Words that mean about the same to a caller, by the name of what they share. */
	readonly alike: Readonly<Record<string, readonly string[]>>;
	/** A word without its ending. */
	readonly stem: (word: string) => string;
}
