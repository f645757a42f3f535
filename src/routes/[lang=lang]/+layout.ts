import { makeI18n } from '$lib/i18n/i18n';
import type { LayoutLoad } from './$types';

export const load: LayoutLoad = async ({ params, fetch }) => ({
	lang: params.lang,
	i18n: await makeI18n(params.lang, fetch)
});
