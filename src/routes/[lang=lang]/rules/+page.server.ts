import { county } from '$core/election/demo';
import { listed } from '$lib/rulebooks/listed';
import { rulebookOf, SETS } from '$lib/rulebooks/sets.server';
import type { PageServerLoad } from './$types';

/** Runs while the page is prerendered: the list of rulebooks, and in full only the one that the demo county goes by. */
export const load: PageServerLoad = ({ params }) => ({
	books: SETS.map((book) => listed(book, params.lang)),
	rulebook: rulebookOf(county.rulebook)
});
