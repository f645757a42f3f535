import { LANGS, loadBundle } from '$lib/i18n/i18n';
import type { PageLoad } from './$types';

interface Choice {
	readonly title: string;
	readonly sentence: string;
}

/** The one sentence of the first page, in every language. */
export const load: PageLoad = async ({ fetch }) => ({
	choices: await Promise.all(
		LANGS.map(async (lang) => {
			const { app } = (await loadBundle(lang, fetch)) as { app: { name: string; choose: Choice } };
			return { lang, name: app.name, ...app.choose };
		})
	)
});
