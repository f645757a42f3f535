import { codesOfReading } from '$core/answers/codesOfReading';
import type { MistakeCodeId } from '$core/answers/mistakeCodes';
import type { Mishap, Stroke } from '$core/ink/stroke';
import { Practice, type PracticeSetup } from '$lib/state/practice.svelte';
import { isClearlyMarked } from './isClearlyMarked';

/** All that is looked at on a sheet that was read: kinds of mistakes, and whether nothing asks for a second look. */
export interface Look {
	readonly codes: readonly MistakeCodeId[];
	readonly isClear: boolean;
}

/** What is told of a sheet as it happens: its first ink, and that its voter wants it read. */
export interface SheetNews {
	readonly oninked: () => void;
	readonly onread: () => void;
}

/** A practice sheet at an event, marked like real paper. It knows when the reader has seen all of its ink. */
export class EventPractice extends Practice {
	readonly #news: SheetNews;
	readonly #running = new Set<Promise<void>>();
	#isInked = false;

	constructor(setup: PracticeSetup, news: SheetNews) {
		super(setup);
		this.#news = news;
		this.mode = 'paper';
	}

	override start(): Promise<void> {
		return this.#follow(super.start());
	}

	override addStrokes(page: number, strokes: readonly Stroke[]): Promise<void> {
		this.#ink();
		return this.#follow(super.addStrokes(page, strokes));
	}

	override addMishap(page: number, mishap: Mishap): Promise<void> {
		this.#ink();
		return this.#follow(super.addMishap(page, mishap));
	}

	override undo(): Promise<void> {
		return this.#follow(super.undo());
	}

	override clear(): Promise<void> {
		this.#isInked = false;
		return this.#follow(super.clear());
	}

	override finish(): void {
		super.finish();
		this.#news.onread();
	}

	/** Waits until the reader has answered to all that was asked. */
	async settled(): Promise<void> {
		while (this.#running.size > 0) await Promise.all(this.#running);
	}

	/** What was found on the sheet, or undefined where it has not been read. */
	look(): Look | undefined {
		if (!this.ready || this.failure !== undefined || this.readings.size === 0) return undefined;
		const codes = codesOfReading([...this.readings.values()]).map(({ code }) => code);
		return { codes, isClear: isClearlyMarked(this.ballot.contests, this.readings, this.statement) };
	}

	/** A sheet is started once, even where its first stroke was taken back. */
	#ink(): void {
		if (this.#isInked) return;
		this.#isInked = true;
		this.#news.oninked();
	}

	#follow(work: Promise<void>): Promise<void> {
		this.#running.add(work);
		return work.finally(() => this.#running.delete(work));
	}
}
