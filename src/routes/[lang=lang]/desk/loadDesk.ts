import type { Ledger } from '$core/answers/ledger';
import type { Typing } from '$lib/answers/knownWords';
import { loadLedger } from '$lib/answers/loadLedger';
import type { Search } from '$lib/answers/search';
import { LANGS, type Lang } from '$lib/i18n/i18n';

/** What a desk needs before its first call. */
export interface DeskAnswers {
	/** In every language: an answer is read in the caller's. */
	readonly ledgers: Readonly<Record<Lang, Ledger>>;
	/** In the desk's language. */
	readonly search: Search;
	readonly typing: Typing;
}

/** Fetches the answers and what searches them. Call in the browser only. Throws when they cannot be had. */
export async function loadDesk(lang: Lang): Promise<DeskAnswers> {
	const [files, { openSearch }, { knownWords }] = await Promise.all([
		Promise.all(LANGS.map(async (one) => [one, await loadLedger(one)] as const)),
		import('$lib/answers/search'),
		import('$lib/answers/knownWords')
	]);
	const ledgers = Object.fromEntries(files) as Record<Lang, Ledger>;
	const { answers } = ledgers[lang];
	return { ledgers, search: openSearch(answers, lang), typing: knownWords(answers, lang) };
}
