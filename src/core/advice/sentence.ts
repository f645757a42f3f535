/**
 * A sentence to be said: a key of the locales with what it needs. A value named `choice`, `otherChoice`,
 * `party` or `otherParty` is an id and `choices` a list of choice ids; whoever says the sentence puts
 * the printed names there. `count` picks the plural form. The target's shape is the sentence's context.
 */
export interface Sentence {
	readonly key: string;
	readonly values: Readonly<Record<string, string | number | readonly string[]>>;
}
