import type { Stroke } from '$core/ink/stroke';
import type { TraceStep } from '$core/reading/statement';
import type { Answer, Found, PictureWindow, Question, Reading } from './messages';

type Numbered = Exclude<Answer, { kind: 'found' }>;
type Without<T> = T extends unknown ? Omit<T, 'number'> : never;

/** A grey part of a page as the scanner sees it. */
export interface Picture {
	readonly widthPx: number;
	readonly heightPx: number;
	readonly grey: Uint8Array;
}

/**
 * Asks the reading worker. Answers come back in the order of the questions, so a later reading never
 * is overtaken by an earlier one.
 */
export class Reader {
	readonly #worker: Worker;
	readonly #waiting = new Map<number, { resolve: (answer: Numbered) => void; reject: (reason: Error) => void }>();
	#last = 0;

	/** `onfound` is called with all marks and targets after each reading. */
	constructor(onfound: (found: Found) => void) {
		this.#worker = new Worker(new URL('./read.worker.ts', import.meta.url), { type: 'module' });
		this.#worker.onmessage = (event: MessageEvent<Answer>) => {
			const answer = event.data;
			if (answer.kind === 'found') {
				onfound(answer.found);
				return;
			}
			const asked = this.#waiting.get(answer.number);
			this.#waiting.delete(answer.number);
			if (answer.kind === 'failed') asked?.reject(new Error(answer.message));
			else asked?.resolve(answer);
		};
		this.#worker.onerror = (event) => {
			for (const { reject } of this.#waiting.values()) reject(new Error(event.message));
			this.#waiting.clear();
		};
	}

	async read(question: Without<Extract<Question, { kind: 'open' | 'add' | 'set' }>>): Promise<Reading> {
		const answer = await this.#ask(question);
		if (answer.kind !== 'read') throw new Error(`Reader.read: expected a reading, got "${answer.kind}"`);
		return answer.reading;
	}

	/** Lets the worker look at what a hand is drawing now, so that its reading comes sooner. Nothing comes of it by itself. */
	foresee(page: number, strokes: readonly Stroke[]): void {
		this.#last += 1;
		this.#worker.postMessage({ kind: 'foresee', number: this.#last, page, strokes });
	}

	async trace(contest: string): Promise<readonly TraceStep[]> {
		const answer = await this.#ask({ kind: 'trace', contest });
		if (answer.kind !== 'trace') throw new Error(`Reader.trace: expected a trace, got "${answer.kind}"`);
		return answer.trace;
	}

	async picture(page: number, window?: PictureWindow): Promise<Picture> {
		const answer = await this.#ask({ kind: 'picture', page, ...(window ? { window } : {}) });
		if (answer.kind !== 'picture') throw new Error(`Reader.picture: expected a picture, got "${answer.kind}"`);
		return answer;
	}

	/** Ends the worker; questions still open are never answered. */
	close(): void {
		this.#worker.terminate();
		this.#waiting.clear();
	}

	#ask(question: Without<Question>): Promise<Numbered> {
		this.#last += 1;
		const number = this.#last;
		return new Promise((resolve, reject) => {
			this.#waiting.set(number, { resolve, reject });
			this.#worker.postMessage({ ...question, number });
		});
	}
}
