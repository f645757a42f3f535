import { json } from '@sveltejs/kit';
import { countyWithAnswers } from '$core/answers/demoCounty';
import { ledgerIn } from '$core/answers/ledger';
import type { Rulebook } from '$core/rules/rule';
import demoCounty from '$core/rules/sets/demo-county.json' with { type: 'json' };
import { LANGS, isLang } from '$lib/i18n/i18n';
import type { EntryGenerator, RequestHandler } from './$types';

export const prerender = true;

export const entries: EntryGenerator = () => LANGS.map((lang) => ({ lang }));

/** The answers of one language as a file of their own: pages load it as data, and it is kept with the app. */
export const GET: RequestHandler = ({ params }) => {
	const language = isLang(params.lang) ? params.lang : LANGS[0];
	return json(ledgerIn(language, countyWithAnswers, demoCounty as unknown as Rulebook));
};
