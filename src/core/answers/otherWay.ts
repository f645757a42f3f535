import type { Answer, Stage } from '../election/election';

/** Questions that are the other way out at a stage: a new ballot, one at the polls, and what is left after mailing. */
const QUESTION_OF: Readonly<Record<Stage, number>> = { holding: 28, 'polling-place': 35, mailed: 32 };

/**
 * What is offered besides an answer: a new ballot in the way open to this caller. Undefined where the answer itself is
 * that way, or the ledger has none.
 */
export function otherWay(
	answers: readonly Answer[],
	answer: Pick<Answer, 'id'>,
	stage: Stage | undefined
): Answer | undefined {
	const way = answers.find(({ questions }) => questions.includes(QUESTION_OF[stage ?? 'holding']));
	return way?.id === answer.id ? undefined : way;
}
