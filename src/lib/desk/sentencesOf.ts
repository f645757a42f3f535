/** A text's sentences, one a line for somebody who reads aloud. Times such as "5 p. m." are not taken for an end. */
export function sentencesOf(text: string, language: string): readonly string[] {
	const parts = new Intl.Segmenter(language, { granularity: 'sentence' }).segment(text);
	return Array.from(parts, ({ segment }) => segment)
		.reduce<readonly string[]>((sentences, segment) => {
			const last = sentences.at(-1);
			// A new sentence begins with a capital, a number or an opening sign; "p." before "m." does not end one.
			const goesOn = last !== undefined && (/\bp\.\s*$/.test(last) || /^\p{Ll}/u.test(segment));
			return goesOn ? [...sentences.slice(0, -1), `${last}${segment}`] : [...sentences, segment];
		}, [])
		.map((sentence) => sentence.trim());
}
