import { createInstance } from 'i18next';
import { expect, test, vi } from 'vitest';
import { said } from '$lib/i18n/said';

function instance(greeting: string) {
	const made = createInstance();
	void made.init({
		lng: 'en',
		fallbackLng: false,
		initAsync: false,
		resources: { en: { translation: { greeting } } }
	});
	return made;
}

test('said looks a text up once for each key and values, and keeps languages apart', () => {
	const [one, other] = [instance('{{name}}, hello'), instance('hola, {{name}}')];
	const asked = vi.spyOn(one, 't');
	expect(said(one, 'greeting', { name: 'A' })).toBe('A, hello');
	expect(said(one, 'greeting', { name: 'A' })).toBe('A, hello');
	expect(asked).toHaveBeenCalledTimes(1);
	expect(said(one, 'greeting', { name: 'B' })).toBe('B, hello');
	expect(said(other, 'greeting', { name: 'A' })).toBe('hola, A');
});
