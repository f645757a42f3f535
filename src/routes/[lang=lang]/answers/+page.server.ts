import { countyWithAnswers as election } from '$core/answers/demoCounty';
import { GALLERY } from '$core/answers/gallery';
import { openGallery } from '$core/answers/galleryPages';
import { OFTEN_ASKED } from '$core/answers/oftenAsked';
import { textIn } from '$core/election/text';
import '$core/layout/font/bundled';
import type { SheetWords } from '$core/layout/words';
import type { Rulebook } from '$core/rules/rule';
import demoCounty from '$core/rules/sets/demo-county.json' with { type: 'json' };
import { galleryNames, showPicture, showSheet } from '$lib/answers/shownPicture';
import { makeI18n } from '$lib/i18n/i18n';
import type { PageServerLoad } from './$types';

/**
 * Runs once a language, while the page is prerendered: the questions, and the pictures drawn and read. The answers
 * themselves change with the day, so the page fetches them and asks the clock.
 */
export const load: PageServerLoad = async ({ params, fetch }) => {
	const { lang } = params;
	const i18n = await makeI18n(lang, fetch);
	const words = i18n.getResource(lang, 'translation', 'layout') as SheetWords;
	const sheets = openGallery(election, galleryNames(i18n, lang), { [lang]: words }, lang);
	const rulebook = demoCounty as unknown as Rulebook;
	const often = OFTEN_ASKED.map((number) => election.answers.find(({ questions }) => questions.includes(number))?.id);
	return {
		office: { phone: election.office.phone },
		questions: election.answers.map(({ id, kind, title }) => ({ id, kind, title: textIn(title, lang) })),
		often: [...new Set(often)].filter((id) => id !== undefined),
		sheets: [...sheets].map(([contest, sheet]) => showSheet(contest, sheet)),
		pictures: GALLERY.flatMap((picture) => {
			const sheet = sheets.get(picture.contest);
			const shown = sheet && showPicture(picture, sheet, election, rulebook, i18n, lang);
			return shown ? [shown] : [];
		})
	};
};
