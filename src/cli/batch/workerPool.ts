import { Worker } from 'node:worker_threads';
import { failedLine, type FileLine, type ReadSettings } from '../fileReader';

/** Worker threads that read files. A file that ends its worker is a failed file, and another worker takes its place. */
export class WorkerPool {
	readonly #settings: ReadSettings;
	readonly #all = new Set<Worker>();
	readonly #idle: Worker[] = [];
	readonly #waiting: ((worker: Worker) => void)[] = [];

	constructor(workers: number, settings: ReadSettings) {
		this.#settings = settings;
		for (let i = 0; i < workers; i++) this.#idle.push(this.#start());
	}

	async read(file: string): Promise<FileLine> {
		const free = this.#idle.pop() ?? (await new Promise<Worker>((resolve) => this.#waiting.push(resolve)));
		// One that ended while it had nothing to do would never answer.
		const worker = this.#all.has(free) ? free : this.#start();
		try {
			const line = await answerOf(worker, file);
			this.#giveBack(worker);
			return line;
		} catch (error) {
			await worker.terminate();
			this.#giveBack(this.#start());
			return failedLine(file, error);
		}
	}

	async close(): Promise<void> {
		await Promise.all([...this.#all].map((worker) => worker.terminate()));
	}

	#giveBack(worker: Worker): void {
		const next = this.#waiting.shift();
		if (next) next(worker);
		else this.#idle.push(worker);
	}

	#start(): Worker {
		const worker = new Worker(new URL('./entry.mjs', import.meta.url), { workerData: this.#settings });
		// Idle workers must not take the process down; what happens while one reads is seen in `answerOf`.
		worker.on('error', () => undefined);
		worker.once('exit', () => this.#all.delete(worker));
		this.#all.add(worker);
		return worker;
	}
}

/** What a worker says of a file. Rejects when the worker ends instead. */
function answerOf(worker: Worker, file: string): Promise<FileLine> {
	return new Promise((resolve, reject) => {
		const settle = (act: () => void): void => {
			worker.off('message', onMessage).off('error', onError).off('exit', onExit);
			act();
		};
		const onMessage = (line: FileLine): void => {
			settle(() => {
				resolve(line);
			});
		};
		const onError = (error: unknown): void => {
			settle(() => {
				reject(error instanceof Error ? error : new Error(String(error)));
			});
		};
		const onExit = (code: number): void => {
			settle(() => {
				reject(new Error(`its worker ended with code ${code}`));
			});
		};
		worker.on('message', onMessage).on('error', onError).on('exit', onExit);
		worker.postMessage(file);
	});
}
