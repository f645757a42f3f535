import { describe, expect, it } from 'vitest';
import { LANGS } from '$lib/i18n/i18n';
import { FILE_REFUSALS } from '$lib/photo/decodePicture';
import { HINTS } from '$lib/photo/guide';
import { STEPS } from '$lib/photo/readPhoto';
import { PHOTO_REFUSALS } from '../../../src/core/photo/refusals';
import { locales } from '../../locales/texts';

/** The last parts of all keys below one. */
const below = (lang: (typeof LANGS)[number], above: string): string[] =>
	[...locales[lang].keys()].filter((key) => key.startsWith(above)).map((key) => key.slice(above.length));

describe.each(LANGS)('the words about photos: %s', (lang) => {
	it('say of each refusal what it is, why, and what to do, and none is left over', () => {
		const reasons = [...PHOTO_REFUSALS, ...FILE_REFUSALS, 'other-ballot'];
		const parts = reasons.flatMap((reason) => ['title', 'why', 'todo'].map((part) => `${reason}.${part}`));
		expect(below(lang, 'paper.refusal.').sort()).toEqual([...parts, 'todo', 'real'].sort());
	});

	it('say what the camera’s picture needs, and what is being done with a photo', () => {
		expect(below(lang, 'paper.camera.guide.').sort()).toEqual([...HINTS].sort());
		expect(below(lang, 'paper.photo.step.').sort()).toEqual([...STEPS].sort());
		for (const reason of ['missing', 'denied', 'busy'])
			expect(below(lang, `paper.camera.${reason}.`).sort()).toEqual(['text', 'title']);
	});

	it('keep the advice of the live camera short enough to be read at a glance', () => {
		const long = HINTS.filter((hint) => (locales[lang].get(`paper.camera.guide.${hint}`)?.length ?? 99) > 45);
		expect(long).toEqual([]);
	});
});
