import { expect, test } from 'vitest';
import { textIn } from '$core/election/text';

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
