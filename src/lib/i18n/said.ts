import type { i18n as I18n } from 'i18next';

/** More texts than this are forgotten and made anew. */
const MOST = 4000;

const known = new WeakMap<I18n, Map<string, string>>();

/**
 * A text, made once for each key and values: with each mark on a ballot every note asks for its words again,
 * and looking them up took longer than all else on the page.
 */
export function said(i18n: I18n, key: string, values: Readonly<Record<string, unknown>>): string {
	let texts = known.get(i18n);
	if (!texts) known.set(i18n, (texts = new Map<string, string>()));
	const name = `${key} ${JSON.stringify(values)}`;
	const before = texts.get(name);
	if (before !== undefined) return before;
	const text = i18n.t(key, values);
	if (texts.size >= MOST) texts.clear();
	texts.set(name, text);
	return text;
}
