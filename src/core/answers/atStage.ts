import type { Answer, Stage } from '../election/election';
import type { Paragraph } from './answerOn';

/** Questions whose answers hold for a stage as such: a mistake at the polls, and a change of mind after mailing. */
const QUESTION_OF_STAGE: Readonly<Partial<Record<Stage, number>>> = { 'polling-place': 35, mailed: 32 };

/** What of an answer is said to a voter whose ballot is at a stage. */
export interface AnswerAtStage {
	readonly paragraphs: readonly Paragraph[];
	/** Where paragraphs fell away or the answer is not for this stage: id of the answer that speaks of the stage. */
	readonly see?: string;
}

/** Whether it makes a difference to an answer where the ballot is. */
export function differsByStage({ stages, parts = [] }: Pick<Answer, 'stages' | 'parts'>): boolean {
	return stages.length < 3 || parts.some((part) => part.stages !== undefined);
}

/**
 * The paragraphs of `answer` that hold at `stage`; all of them where no stage is given. `answers`: the whole ledger, in
 * which the answer to see as well is looked up by its question.
 */
export function atStage(
	answer: Pick<Answer, 'id' | 'stages'>,
	paragraphs: readonly Paragraph[],
	stage: Stage | undefined,
	answers: readonly Pick<Answer, 'id' | 'questions'>[]
): AnswerAtStage {
	if (stage === undefined) return { paragraphs };
	const kept = paragraphs.filter(({ stages }) => stages === undefined || stages.includes(stage));
	// An office's own words at this stage are enough; without any, the voter is led on.
	const isSaid = kept.some(({ stages }) => stages !== undefined);
	const isWhole = answer.stages.includes(stage) && (kept.length === paragraphs.length || isSaid);
	const see = answers.find(({ questions }) => questions.includes(QUESTION_OF_STAGE[stage] ?? 0));
	return isWhole || !see || see.id === answer.id ? { paragraphs: kept } : { paragraphs: kept, see: see.id };
}
