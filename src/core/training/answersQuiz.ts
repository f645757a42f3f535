import type { Answer } from '../election/election';
import { textIn } from '../election/text';
import { randomFrom } from '../random';
import { shuffled } from './makeCases';

/** How a caller puts it, and the answers to choose from, in the order in which they are shown. */
export interface QuizQuestion {
	readonly phrase: string;
	/** Id of the approved answer that the ledger has for the phrase. */
	readonly answer: string;
	/** Ids of four answers, the right one among them. */
	readonly options: readonly string[];
}

export interface QuizOptions {
	readonly language: string;
	readonly questions: number;
	readonly seed: number;
	/** Answers to a phrase by nearness, nearest first: what a search would offer. */
	readonly rank: (phrase: string) => readonly string[];
	/** Whether an answer may be given now: nobody should learn one that is open or over. */
	readonly isApproved: (answer: Answer) => boolean;
}

export const QUIZ_CHOICES = 4;

/**
 * Questions from the ledger, each on another answer: a caller's phrase, its answer and the nearest others. A phrase is
 * asked only where its own answer comes first, so that no other fits it better, and never beside an answer that holds
 * the same phrase or speaks of the same question. Fewer questions than asked for where the ledger has no more. The same
 * ledger and seed give the same quiz.
 */
export function makeQuiz(answers: readonly Answer[], options: QuizOptions): readonly QuizQuestion[] {
	const random = randomFrom(options.seed);
	const approved = answers.filter(options.isApproved);
	const quiz: QuizQuestion[] = [];
	for (const answer of shuffled(approved, random)) {
		if (quiz.length >= options.questions) break;
		const question = questionOn(answer, approved, options, random);
		if (question) quiz.push(question);
	}
	return quiz;
}

function questionOn(
	answer: Answer,
	approved: readonly Answer[],
	{ language, rank }: QuizOptions,
	random: () => number
): QuizQuestion | undefined {
	const title = textIn(answer.title, language);
	const byId = new Map(approved.map((one) => [one.id, one]));
	for (const phrase of shuffled(answer.callersWords[language] ?? [], random)) {
		// A phrase that is the title asks nothing.
		if (plain(phrase) === plain(title)) continue;
		const [first, ...near] = rank(phrase);
		if (first !== answer.id) continue;
		const wrong = near
			.flatMap((id) => byId.get(id) ?? [])
			.filter((other) => other.id !== answer.id && !isAlike(other, answer, phrase, language))
			.slice(0, QUIZ_CHOICES - 1)
			.map(({ id }) => id);
		if (wrong.length < QUIZ_CHOICES - 1) continue;
		return { phrase, answer: answer.id, options: shuffled([answer.id, ...wrong], random) };
	}
	return undefined;
}

/** Whether another answer would be right as well. */
const isAlike = (other: Answer, answer: Answer, phrase: string, language: string): boolean =>
	other.questions.some((question) => answer.questions.includes(question)) ||
	(other.callersWords[language] ?? []).some((words) => plain(words) === plain(phrase));

const plain = (text: string): string =>
	text
		.toLowerCase()
		.replace(/[^\p{L}\p{N}]+/gu, ' ')
		.trim();
