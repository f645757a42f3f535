import type { Contest } from '$core/election/election';
import { textIn } from '$core/election/text';
import type { ReadCase } from '$core/training/reviewQueue';
import type { Words } from '$lib/notes/words';
import type { Translate } from '$lib/i18n/translate';

/** What lies on the table, in words: what was found, never what it comes to. */
export function describeCase(one: ReadCase, contest: Contest, words: Words, t: Translate, lang: string): string {
	const title = textIn(contest.title, lang);
	// Two words of one note may be found as two marks: said once.
	const marks = [...new Set(one.found.marks.map((mark) => words.mark(mark)))].join('; ');
	return marks === ''
		? t('training.case.empty', { contest: title })
		: t('training.case.label', { contest: title, marks });
}

/** What a person has said that the handwriting is, a sentence each; for writing that nobody can read, that. */
export function sayingsOf({ says, marks }: ReadCase, words: Words, t: Translate): readonly string[] {
	const told = says.map(({ says: saying, names, choice }) =>
		t(`training.says.${saying}`, { choice: words.choice(names ?? choice) })
	);
	const isUnread = marks.some(({ kind, choice }) => kind === 'note' && !says.some((one) => one.choice === choice));
	return isUnread ? [...told, t('training.says.nobody')] : told;
}
