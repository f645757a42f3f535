import type { GreyImage } from '$core/image';
import type { PackedOutlines } from '$core/layout/font/glyph';
import outlinesUrl from '$core/layout/font/outlines.json?url';
import type { PhotoSetup } from '$core/photo/photoSheets';
import { decodeFile, FileRefused, greyOfPicture } from './decodePicture';
import type { Guide } from './guide';
import type { Answer, Picture, Question } from './messages';
import type { ReadBallot, RefusedPhoto, SeenBallot, Step } from './readPhoto';

type Without<T> = T extends unknown ? Omit<T, 'number'> : never;

interface Asked {
	readonly resolve: (answer: Answer) => void;
	readonly reject: (reason: Error) => void;
	readonly onstep: (step: Step) => void;
}

/** Thrown to whoever waits for a photo that was given up. */
export class GivenUp extends Error {
	constructor() {
		super('the photo was given up');
	}
}

/**
 * Asks the photo worker. The worker is there from the first question until `giveUp` or `close`: to end it is the only way
 * to stop it in the middle, and nothing of a photo outlives it.
 */
export class PhotoReader {
	readonly #setup: PhotoSetup;
	#worker: Worker | undefined;
	#opened: Promise<boolean> | undefined;
	#outlines: Promise<PackedOutlines> | undefined;
	readonly #waiting = new Map<number, Asked>();
	#last = 0;

	constructor(setup: PhotoSetup) {
		this.#setup = setup;
	}

	/** Gets the worker ready, so that the first photo need not wait for it. */
	async open(): Promise<boolean> {
		return (this.#opened ??= this.#start());
	}

	/** Reads a photo that is added to the pages of `before`. Throws GivenUp after `giveUp`. */
	async read(
		picture: Blob | ImageBitmap,
		before: SeenBallot | undefined,
		onstep: (step: Step) => void
	): Promise<ReadBallot | RefusedPhoto> {
		onstep('open');
		try {
			const photo = (await this.open()) ? picture : await greyOnPage(picture);
			const answer = await this.#ask({ kind: 'read', photo, before }, onstep);
			if (answer.kind !== 'read') throw new Error(`PhotoReader.read: expected a reading, got "${answer.kind}"`);
			return answer.result;
		} catch (error) {
			if (error instanceof FileRefused) return { refused: error.reason };
			throw error;
		}
	}

	/** Looks at one frame of the camera. The frame is handed over and is of no use afterwards. */
	async look(frame: ImageBitmap, finer: number): Promise<Guide> {
		const picture = (await this.open()) ? frame : await greyOnPage(frame);
		const answer = await this.#ask({ kind: 'look', frame: picture, finer });
		if (answer.kind !== 'looked') throw new Error(`PhotoReader.look: expected a guide, got "${answer.kind}"`);
		return answer.guide;
	}

	/** Stops at once whatever is being read. */
	giveUp(): void {
		this.#worker?.terminate();
		this.#worker = undefined;
		this.#opened = undefined;
		for (const { reject } of this.#waiting.values()) reject(new GivenUp());
		this.#waiting.clear();
	}

	async #start(): Promise<boolean> {
		try {
			const worker = new Worker(new URL('./photo.worker.ts', import.meta.url), { type: 'module' });
			this.#worker = worker;
			worker.onmessage = ({ data }: MessageEvent<Answer>) => {
				this.#settle(data);
			};
			worker.onerror = (event) => {
				for (const { reject } of this.#waiting.values()) reject(new Error(event.message));
				this.#waiting.clear();
			};
			// Data, so fetched as data: a font's outlines need no parsing as a program.
			this.#outlines ??= fetch(outlinesUrl).then((answer) => answer.json() as Promise<PackedOutlines>);
			const outlines = await this.#outlines;
			if (this.#worker !== worker) throw new GivenUp();
			const answer = await this.#ask({ kind: 'open', setup: this.#setup, outlines });
			return answer.kind === 'opened' && answer.canvas;
		} catch (error) {
			// The next question tries again from the start.
			this.#opened = undefined;
			this.#outlines = undefined;
			throw error;
		}
	}

	#settle(answer: Answer): void {
		const asked = this.#waiting.get(answer.number);
		if (answer.kind === 'step') {
			asked?.onstep(answer.step);
			return;
		}
		this.#waiting.delete(answer.number);
		if (answer.kind === 'failed') asked?.reject(new Error(answer.message));
		else asked?.resolve(answer);
	}

	#ask(question: Without<Question>, onstep: (step: Step) => void = () => undefined): Promise<Answer> {
		this.#last += 1;
		const number = this.#last;
		return new Promise((resolve, reject) => {
			if (!this.#worker) {
				reject(new GivenUp());
				return;
			}
			this.#waiting.set(number, { resolve, reject, onstep });
			this.#worker.postMessage({ ...question, number }, { transfer: handedOver(question) });
		});
	}
}

/** What goes to the worker instead of being copied. */
function handedOver(question: Without<Question>): Transferable[] {
	if (question.kind === 'open') return [];
	const picture: Picture = question.kind === 'read' ? question.photo : question.frame;
	if (picture instanceof Blob) return [];
	return picture instanceof ImageBitmap ? [picture] : [picture.data.buffer];
}

async function greyOnPage(picture: Blob | ImageBitmap): Promise<GreyImage> {
	if (picture instanceof Blob) return decodeFile(picture, canvasOnPage);
	try {
		return greyOfPicture(picture, canvasOnPage);
	} finally {
		picture.close();
	}
}

function canvasOnPage(width: number, height: number): HTMLCanvasElement {
	const canvas = document.createElement('canvas');
	canvas.width = width;
	canvas.height = height;
	return canvas;
}
