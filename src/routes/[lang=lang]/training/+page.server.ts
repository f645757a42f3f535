import { listed } from '$lib/rulebooks/listed';
import { SETS } from '$lib/rulebooks/sets.server';
import type { PageServerLoad } from './$types';

/** Runs once a language, while the page is prerendered: the rulebooks to choose from. Marks and answers are fetched. */
export const load: PageServerLoad = ({ params: { lang } }) => ({ books: SETS.map((book) => listed(book, lang)) });
