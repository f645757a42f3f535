import { OTHER_DECISIONS, type Decision } from '$core/training/decision';
import { list, type Words } from '$lib/notes/words';

/** A decision in a few words of the page's language. */
export function sayDecision(decision: Decision, words: Words, lang: string): string {
	if (decision.outcome !== 'vote') return words.text(`training.decision.${decision.outcome}`);
	const choices = list(
		lang,
		decision.votes.map((id) => words.choice(id))
	);
	return words.text('training.decision.vote', { choices });
}

/** Digits of the decisions that are no vote: the same on every contest, after those of the choices. */
export const KEY_OF: Readonly<Record<(typeof OTHER_DECISIONS)[number], string>> = {
	'no-vote': '7',
	'too-many': '8',
	blank: '9',
	refer: '0'
};
