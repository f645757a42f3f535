import type { i18n as I18n } from 'i18next';
import { headline } from '$core/advice/headline';
import type { Contest } from '$core/election/election';
import type { Lang } from '$lib/i18n/i18n';
import type { Practice } from '$lib/state/practice.svelte';
import { wordsOf } from './words';

/** The heading of a contest's note as one plain sentence: for the list and for a screen reader. */
export function sayHeadline(practice: Practice, contest: Contest, lang: Lang, i18n: I18n): string {
	const reading = practice.readingOf(contest.id);
	if (!reading) return i18n.t('practice.list.unread');
	return wordsOf(i18n, lang, practice.setup.election, contest).say('reading.headline', headline(reading, contest));
}
