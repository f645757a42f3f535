import { expect, test } from 'vitest';
import { citationIn, textIn } from '$core/election/text';

test('textIn gives the language asked for, else the fallback, else any that is written', () => {
	const text = { en: 'Treasurer', es: 'Tesorería', fr: '  ' };
	expect(textIn(text, 'es')).toBe('Tesorería');
	expect(textIn(text, 'fr')).toBe('Treasurer');
	expect(textIn(text, 'vi', 'es')).toBe('Tesorería');
	expect(textIn({ so: 'Khasnaji' }, 'vi', 'en')).toBe('Khasnaji');
	expect(textIn({}, 'en')).toBe('');
});

test('textIn never gives what an object inherits', () => {
	expect(textIn({ en: 'Yes' }, 'constructor')).toBe('Yes');
});

test('citationIn gives the citation as it stands, except in a language in which the office has it', () => {
	const own = { cite: 'House rule 3', citeIn: { es: 'Regla interna 3', fr: ' ' } };
	expect(citationIn(own, 'es')).toBe('Regla interna 3');
	for (const language of ['en', 'fr', 'vi', 'constructor']) expect(citationIn(own, language)).toBe('House rule 3');
	expect(citationIn({ cite: 'Elec. Code 15154' }, 'es')).toBe('Elec. Code 15154');
});
