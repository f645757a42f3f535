import { county, fair } from '$core/election/demo';
import type { Rulebook } from '$core/rules/rule';
import demoCounty from '$core/rules/sets/demo-county.json' with { type: 'json' };
import { drawStack } from '$lib/photo/drawStack';
import en from '$locales/en.json' with { type: 'json' };
import es from '$locales/es.json' with { type: 'json' };
import type { PageServerLoad } from './$types';

/**
 * Runs once a language, while the page is prerendered: what sheets are laid out from travels in the page, and the sheet
 * most wanted is drawn in it, so that it can be printed before any program runs.
 */
export const load: PageServerLoad = ({ params }) => {
	const words = { en: en.layout, es: es.layout };
	return {
		elections: [county, fair],
		words,
		rulebook: demoCounty as unknown as Rulebook,
		first: drawStack({
			election: county,
			styles: [county.styles[0]?.id ?? ''],
			languages: [[params.lang]],
			words,
			paper: 'letter',
			blackAndWhite: false,
			printSize: 'ordinary'
		})
	};
};
