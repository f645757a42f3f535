import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { countyWithAnswers } from '$core/answers/demoCounty';
import { knownWords } from '../../../src/lib/answers/knownWords';

const { answers, contests } = countyWithAnswers;
const typing = { en: knownWords(answers, 'en'), es: knownWords(answers, 'es') };

describe.each(['en', 'es'] as const)('words that the answers know: %s', (language) => {
	const keep = typing[language];

	test('every title and every phrase of a caller in the ledger can be typed', () => {
		const phrases = answers.flatMap(({ title, callersWords }) => [title[language]!, ...(callersWords[language] ?? [])]);
		expect(phrases.filter((phrase) => keep(phrase) !== phrase)).toEqual([]);
	});

	test('no name of a person or a party on the demo ballot can be typed', () => {
		const people = contests
			.flatMap(({ choices }) => choices.map(({ name }) => name[language]!))
			.filter((name) => /^\p{Lu}\p{Ll}+ .*\p{Lu}\p{Ll}+$/u.test(name));
		expect(people.length).toBeGreaterThan(20);
		expect(people.filter((name) => keep(name) === name)).toEqual([]);
		// Nor the part by which it is known: whole words of other kinds stand in some names.
		const surnames = people.map((name) => name.split(' ').at(-1)!).filter((word) => !/^Party$/.test(word));
		expect(surnames.filter((word) => keep(word) === word)).toEqual([]);
	});

	test('what is kept is the beginning of what was typed, and stays when it is typed again', () => {
		fc.assert(
			fc.property(fc.string({ unit: fc.constantFrom(...Array.from('aeinorst pcdlm’?')) }), (typed) => {
				const kept = keep(typed);
				expect(typed.startsWith(kept)).toBe(true);
				expect(keep(kept)).toBe(kept);
			})
		);
	});
});

test('letter by letter a known word is taken, and the first letter that begins none is not', () => {
	expect(typing.en('spilled coff')).toBe('spilled coff');
	expect(typing.en('coffees')).toBe('coffees');
	expect(typing.en('coffex')).toBe('coffe');
	expect(typing.en('envel ')).toBe('envel');
	expect(typing.es('café en la boleta')).toBe('café en la boleta');
	expect(typing.en('')).toBe('');
});
