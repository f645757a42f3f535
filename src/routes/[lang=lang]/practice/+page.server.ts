import { county } from '$core/election/demo';
import { layOut } from '$core/layout/layOutBallot';
import type { Rulebook } from '$core/rules/rule';
import demoCounty from '$core/rules/sets/demo-county.json' with { type: 'json' };
import en from '$locales/en.json' with { type: 'json' };
import es from '$locales/es.json' with { type: 'json' };
import type { PageServerLoad } from './$types';

const WORDS = { en: en.layout, es: es.layout };

/**
 * Runs once a language, while the page is prerendered: election, sheet and rulebook travel in the page as
 * data, so that the first visit loads no program to make them.
 */
export const load: PageServerLoad = ({ params }) => {
	const { lang } = params;
	const words = WORDS[lang];
	return {
		election: county,
		layout: layOut(county, county.styles[0]?.id ?? '', { [lang]: words }, [lang]),
		words,
		rulebook: demoCounty as unknown as Rulebook
	};
};
