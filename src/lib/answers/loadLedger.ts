import { resolve } from '$app/paths';
import type { Ledger } from '$core/answers/ledger';
import type { Lang } from '$lib/i18n/i18n';

/** The ledger in one language. Call in the browser only. Throws when it cannot be had. */
export async function loadLedger(lang: Lang): Promise<Ledger> {
	const address = `${resolve('/[lang=lang]/answers', { lang })}/ledger.json`;
	const file = await fetch(address);
	if (!file.ok) throw new Error(`loadLedger: expected ${address}, got status ${file.status}; reload the page`);
	return file.json() as Promise<Ledger>;
}
