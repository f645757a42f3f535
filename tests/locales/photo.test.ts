import { describe, expect, it } from 'vitest';
import { LANGS } from '$lib/i18n/i18n';
import { PHOTO_REFUSALS } from '../../src/core/photo/refusals';
import { locales } from './texts';

describe('the reasons why a photo is not read', () => {
	it.each(LANGS)('each have words, and no words are left over: %s', (lang) => {
		const keys = [...locales[lang].keys()].filter((key) => key.startsWith('photo.refusal.'));
		expect(keys.sort()).toEqual(PHOTO_REFUSALS.map((reason) => `photo.refusal.${reason}`).sort());
	});
});
