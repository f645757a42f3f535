import { createInstance, type i18n } from 'i18next';

/** The languages of the app, each with a file in `locales/`. The first is the main one. */
export const LANGS = ['en', 'es'] as const;
export type Lang = (typeof LANGS)[number];

/** Each language by its own name: whoever looks for a language reads that one. */
export const LANG_NAMES: Readonly<Record<Lang, string>> = { en: 'English', es: 'Español' };

export const isLang = (tag: string): tag is Lang => (LANGS as readonly string[]).includes(tag);

type Bundle = Record<string, unknown>;
const loaders = import.meta.glob<Bundle>('../../../locales/*.json', { import: 'default' });

/** The texts of one language. Throws when `locales/` has no file for it. */
export async function loadBundle(lang: Lang): Promise<Bundle> {
	const load = loaders[`../../../locales/${lang}.json`];
	if (!load)
		throw new Error(
			`loadBundle: expected locales/${lang}.json, found none; add the file or take "${lang}" out of LANGS`
		);
	return load();
}

/** One instance a page render: prerendering renders several languages in one process, so none is global. */
export async function makeI18n(lang: Lang): Promise<i18n> {
	const instance = createInstance();
	await instance.init({
		lng: lang,
		fallbackLng: false,
		resources: { [lang]: { translation: await loadBundle(lang) } },
		interpolation: { escapeValue: false },
		initAsync: false
	});
	return instance;
}
