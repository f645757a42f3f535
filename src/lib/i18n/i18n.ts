import { createInstance, type i18n } from 'i18next';

/** The languages of the app, each with a file in `locales/`. The first is the main one. */
export const LANGS = ['en', 'es'] as const;
export type Lang = (typeof LANGS)[number];

/** Each language by its own name: whoever looks for a language reads that one. */
export const LANG_NAMES: Readonly<Record<Lang, string>> = { en: 'English', es: 'Español' };

export const isLang = (tag: string): tag is Lang => (LANGS as readonly string[]).includes(tag);

type Bundle = Record<string, unknown>;

/** Addresses of the texts: they travel as data, and a prerendered page carries its own. */
const addresses = import.meta.glob<string>('../../../locales/*.json', {
	query: '?url',
	import: 'default',
	eager: true
});

/** The texts of one language, fetched by `load`'s own fetch or the browser's. Throws when there are none. */
export async function loadBundle(lang: Lang, get: typeof fetch): Promise<Bundle> {
	const address = addresses[`../../../locales/${lang}.json`];
	if (!address)
		throw new Error(
			`loadBundle: expected locales/${lang}.json, found none; add the file or take "${lang}" out of LANGS`
		);
	const answer = await get(address);
	if (!answer.ok) throw new Error(`loadBundle: expected ${address}, got status ${answer.status}; reload the page`);
	return answer.json() as Promise<Bundle>;
}

/** One instance a page render: prerendering renders several languages in one process, so none is global. */
export async function makeI18n(lang: Lang, get: typeof fetch): Promise<i18n> {
	const instance = createInstance();
	await instance.init({
		lng: lang,
		fallbackLng: false,
		resources: { [lang]: { translation: await loadBundle(lang, get) } },
		interpolation: { escapeValue: false },
		initAsync: false
	});
	return instance;
}
