import { fair } from '$core/election/demo';
import { layOut } from '$core/layout/layOutBallot';
import type { Rulebook } from '$core/rules/rule';
import demoCounty from '$core/rules/sets/demo-county.json' with { type: 'json' };
import { LANGS } from '$lib/i18n/i18n';
import en from '$locales/en.json' with { type: 'json' };
import es from '$locales/es.json' with { type: 'json' };
import type { PageServerLoad } from './$types';

const TEXTS = { en, es };

/** Runs once a language, while the page is prerendered: the fun ballot, and each language's own words to choose it by. */
export const load: PageServerLoad = ({ params }) => {
	const { lang } = params;
	const words = TEXTS[lang].layout;
	return {
		election: fair,
		layout: layOut(fair, fair.styles[0]?.id ?? '', { [lang]: words }, [lang]),
		words,
		rulebook: demoCounty as unknown as Rulebook,
		welcomes: LANGS.map((one) => ({ lang: one, texts: TEXTS[one].event }))
	};
};
