import type { SheetWords } from '$core/layout/words';
import type { Rulebook } from '$core/rules/rule';
import type { PageLoad } from './$types';

export const load: PageLoad = async ({ params, parent }) => {
	const { i18n } = await parent();
	// A chunk of its own: the rulebook changes with the law, the screen does not.
	const rulebook = (await import('$core/rules/sets/demo-county.json')).default as unknown as Rulebook;
	const words = i18n.getResource(params.lang, 'translation', 'layout') as SheetWords;
	return { rulebook, words };
};
