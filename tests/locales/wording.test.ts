import { describe, expect, it } from 'vitest';
import { locales, withoutPlaceholders } from './texts';

/**
 * What the app may not say to a voter: that a vote counts or is valid. A machine likely reads, people decide, an office
 * asks; nobody here can promise more.
 */
const banned = {
	en: [
		/\bcount(s|ed)?\b/i,
		/\b(in)?valid\b/i,
		/\b(your|the) vote (is|was|will be) (good|safe|lost|void|accepted|rejected)\b/i,
		/\bvote(s)? (is|are) wasted\b/i,
		/\blegal vote\b/i
	],
	es: [
		/\bvotos?\b[^.]*\bcuentan?\b/i,
		/(?<!\p{L})(se|no|sí) cuentan?\b/iu,
		/(?<!\p{L})contar(á|án|ían?)(?!\p{L})/iu,
		/\bcontad[oa]s?\b/i,
		/(?<!\p{L})(in)?válid[oa]s?(?!\p{L})/iu,
		/\bnul[oa]s?\b/i,
		/\bsu voto (es|está|será|fue) (bueno|seguro|aceptado|rechazado)\b/i
	]
};

const said = {
	en: ['Your vote will count.', 'This mark counts.', 'It would be counted.', 'Your vote is valid.', 'The vote is lost'],
	es: ['Su voto cuenta.', 'Esta marca no cuenta.', 'Se contará.', 'Su voto es válido.', 'El voto es nulo.']
};

describe.each(['en', 'es'] as const)('what is said to a voter: %s', (lang) => {
	it('never promises that a vote counts or is valid', () => {
		const promises = [...locales[lang]].filter(([, text]) =>
			banned[lang].some((phrase) => phrase.test(withoutPlaceholders(text ?? '')))
		);
		expect(promises).toEqual([]);
	});

	it('would be caught if it did', () => {
		for (const sentence of said[lang])
			expect([sentence, banned[lang].some((phrase) => phrase.test(sentence))]).toEqual([sentence, true]);
	});
});
