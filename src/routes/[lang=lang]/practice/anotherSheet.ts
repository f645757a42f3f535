import type { Election } from '$core/election/election';
import type { SheetWords } from '$core/layout/words';
import type { Rulebook } from '$core/rules/rule';
import { LANGS, loadBundle, type Lang } from '$lib/i18n/i18n';
import { Practice } from '$lib/state/practice.svelte';

/** What every sheet of a screen has in common. */
export interface Print {
	readonly lang: Lang;
	/** The printed words in `lang`. */
	readonly words: SheetWords;
	readonly rulebook: Rulebook;
}

/**
 * A sheet of `election` in the screen's language, or in all. The layout engine is loaded when it is first wanted: the
 * first sheet came laid out.
 */
export async function anotherSheet(
	{ lang, words, rulebook }: Print,
	election: Election,
	style: string,
	inAll = false
): Promise<Practice> {
	const languages = inAll ? [lang, ...LANGS.filter((other) => other !== lang)] : [lang];
	const texts: Record<string, SheetWords> = { [lang]: words };
	for (const other of languages.slice(1)) texts[other] = (await loadBundle(other, fetch))['layout'] as SheetWords;
	const { layOut } = await import('$core/layout/layOutBallot');
	return new Practice({ election, layout: layOut(election, style, texts, languages), words: texts, rulebook });
}

/** A sheet of the fun ballot. */
export async function fairSheet(print: Print): Promise<Practice> {
	const file = await import('$core/election/files/fair.json');
	const fair = file.default as unknown as Election;
	return anotherSheet(print, fair, fair.styles[0]?.id ?? '');
}

/** The next sheet takes the place of this one: pen, way of reading and stage stay as they are. */
export function handOver(from: Practice, to: Practice): void {
	to.tool = from.tool;
	to.mode = from.mode;
	to.stage = from.stage;
	from.stop();
}
