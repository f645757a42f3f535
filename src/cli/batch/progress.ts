/** Batches from this size on say how far they are. */
const LEAST_FILES = 20;

/** Time between two words of progress, in milliseconds. */
const PAUSE_MS = 2000;

/** Says on standard error how far a batch is: every two seconds and at its end. */
export class Progress {
	readonly #total: number;
	readonly #before: number;
	readonly #startMs = Date.now();
	#saidMs = Date.now();
	#done = 0;
	#refused = 0;

	/** `before`: files of the batch that an earlier run read. */
	constructor(total: number, before: number) {
		this.#total = total;
		this.#before = before;
		if (before > 0)
			process.stderr.write(`fairhand: ${before} of ${total} files read before, ${total - before} to go\n`);
	}

	step(isRefused: boolean): void {
		this.#done += 1;
		if (isRefused) this.#refused += 1;
		if (Date.now() - this.#saidMs >= PAUSE_MS) this.#say();
	}

	end(): void {
		this.#say();
	}

	#say(): void {
		if (this.#total < LEAST_FILES) return;
		this.#saidMs = Date.now();
		const seconds = (this.#saidMs - this.#startMs) / 1000;
		const rate = seconds > 0 ? `, ${(this.#done / seconds).toFixed(1)} a second` : '';
		process.stderr.write(
			`fairhand: ${this.#before + this.#done} of ${this.#total} files, ${this.#refused} refused${rate}\n`
		);
	}
}
