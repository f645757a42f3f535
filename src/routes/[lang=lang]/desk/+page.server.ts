import { countyWithAnswers } from '$core/answers/demoCounty';
import { openGallery } from '$core/answers/galleryPages';
import { county } from '$core/election/demo';
import { textIn } from '$core/election/text';
import '$core/layout/font/bundled';
import type { SheetWords } from '$core/layout/words';
import type { Rulebook } from '$core/rules/rule';
import demoCounty from '$core/rules/sets/demo-county.json' with { type: 'json' };
import { galleryNames } from '$lib/answers/shownPicture';
import { makeI18n } from '$lib/i18n/i18n';
import type { PageServerLoad } from './$types';

/** Runs once a language, while the page is prerendered: the office, and a made-up contest to place marks on. */
export const load: PageServerLoad = async ({ params, fetch }) => {
	const { lang } = params;
	const i18n = await makeI18n(lang, fetch);
	const words = i18n.getResource(lang, 'translation', 'layout') as SheetWords;
	const sheet = openGallery(countyWithAnswers, galleryNames(i18n, lang), { [lang]: words }, lang).get('pick-one');
	if (!sheet) throw new Error('desk: expected the made-up contest "pick-one", found none');
	return {
		office: textIn(countyWithAnswers.office.name, lang),
		paper: {
			// The answers come with their own file; correction steps need no more than the county's own passages.
			election: { ...sheet.election, answers: [], passages: county.passages ?? [] },
			layout: sheet.layout,
			words: { [lang]: words },
			rulebook: demoCounty as unknown as Rulebook,
			view: sheet.view
		}
	};
};
