import type { QuizQuestion } from '$core/training/answersQuiz';

/** One round of the quiz. In memory only. */
export class Quiz {
	readonly questions: readonly QuizQuestion[];
	/** The language of its phrases. */
	readonly language: string;
	/** By question: the id of the answer that was picked. */
	#picked = $state.raw<readonly string[]>([]);
	/** Whether the last picked one is still shown. */
	isShown = $state(false);

	/** Throws a RangeError without questions. */
	constructor(questions: readonly QuizQuestion[], language: string) {
		if (questions.length === 0) throw new RangeError('Quiz: expected at least one question, got none');
		this.questions = questions;
		this.language = language;
	}

	/** From 0. */
	get at(): number {
		return this.isShown ? this.#picked.length - 1 : this.#picked.length;
	}

	/** undefined once all are answered and the last answer was read. */
	get current(): QuizQuestion | undefined {
		return this.questions[this.at];
	}

	get picked(): string | undefined {
		return this.isShown ? this.#picked.at(-1) : undefined;
	}

	get isFinished(): boolean {
		return this.current === undefined;
	}

	/** Questions answered with another than the approved answer, in the order in which they were asked. */
	get missed(): readonly QuizQuestion[] {
		return this.questions.filter(({ answer }, i) => this.#picked[i] !== undefined && this.#picked[i] !== answer);
	}

	/** Does nothing while an answer is shown, nor with an answer that the question does not offer. */
	pick(answer: string): void {
		if (this.isShown || !this.current?.options.includes(answer)) return;
		this.#picked = [...this.#picked, answer];
		this.isShown = true;
	}

	next(): void {
		this.isShown = false;
	}
}
