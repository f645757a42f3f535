import { json } from '@sveltejs/kit';
import { LANGS, isLang } from '$lib/i18n/i18n';
import { trainingTable } from '$lib/training/trainingTable.server';
import en from '$locales/en.json' with { type: 'json' };
import es from '$locales/es.json' with { type: 'json' };
import type { EntryGenerator, RequestHandler } from './$types';

export const prerender = true;

export const entries: EntryGenerator = () => LANGS.map((lang) => ({ lang }));

/** The review table of one language as a file of its own: fetched when somebody trains, and kept with the app. */
export const GET: RequestHandler = ({ params }) =>
	json(trainingTable(isLang(params.lang) ? params.lang : LANGS[0], { en: en.layout, es: es.layout }));
