import '$core/layout/font/bundled';
import { listed } from '$lib/rulebooks/listed';
import { pictureElection, pictureSheets } from '$lib/rulebooks/pictureSheets.server';
import { SETS } from '$lib/rulebooks/sets.server';
import en from '$locales/en.json' with { type: 'json' };
import es from '$locales/es.json' with { type: 'json' };
import type { PageServerLoad } from './$types';

const WORDS = { en: en.layout, es: es.layout };

/**
 * Runs once a language, while the page is prerendered: the pictures are drawn and read here, so that the page has what
 * was found without loading a reader. What rulebooks make of it is decided on the page.
 */
export const load: PageServerLoad = ({ params: { lang } }) => ({
	books: SETS.map((book) => listed(book, lang)),
	election: pictureElection,
	words: WORDS[lang],
	...pictureSheets(lang, WORDS[lang])
});
