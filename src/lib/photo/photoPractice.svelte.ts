import type { GreyImage } from '$core/image';
import { PX_PER_PT } from '$core/image';
import type { Mark, TargetReading } from '$core/marks/mark';
import type { BallotStatement, ContestReading, TraceStep } from '$core/reading/statement';
import { Practice, type PracticeSetup } from '$lib/state/practice.svelte';
import type { PictureWindow } from '$lib/worker/messages';
import type { Picture } from '$lib/worker/reader';
import type { ReadBallot } from './readPhoto';

/* eslint-disable svelte/prefer-svelte-reactivity -- nothing here changes: another photo makes another practice */

/**
 * A ballot that was marked on real paper, as the notes know a practice: its readings are there from the start, and it
 * takes no ink. Its sheet has only the pages that were photographed. Everything lives in memory.
 */
export class PhotoPractice extends Practice {
	readonly images: ReadonlyMap<number, GreyImage>;
	readonly #read: ReadBallot;
	readonly #byContest: ReadonlyMap<string, ContestReading>;
	/** Pages of the whole sheet. */
	readonly pageCount: number;

	constructor(setup: Omit<PracticeSetup, 'layout'>, read: ReadBallot, images: ReadonlyMap<number, GreyImage>) {
		const pages = read.layout.pages.filter(({ page }) => images.has(page));
		super({ ...setup, layout: { ...read.layout, pages } });
		this.#read = read;
		this.images = images;
		this.pageCount = read.layout.pages.length;
		this.#byContest = new Map(read.contests.map((reading) => [reading.contest, reading]));
		this.ready = true;
	}

	override get marks(): readonly Mark[] {
		return this.#read.seen.pages.flatMap(({ marks }) => marks);
	}

	override get targets(): readonly TargetReading[] {
		return this.#read.seen.pages.flatMap(({ targets }) => targets);
	}

	override get statement(): BallotStatement {
		return this.#read.ballot;
	}

	override get readings(): ReadonlyMap<string, ContestReading> {
		return this.#byContest;
	}

	override readingOf(contest: string): ContestReading | undefined {
		return this.#byContest.get(contest);
	}

	override get hasInk(): boolean {
		return true;
	}

	override get hasDryInk(): boolean {
		return true;
	}

	/** Pages of the sheet that no photo has shown yet. */
	get missing(): readonly number[] {
		return this.#read.layout.pages.map(({ page }) => page).filter((page) => !this.images.has(page));
	}

	/** Nothing to start: the photo worker has read it. */
	override start(): Promise<void> {
		return Promise.resolve();
	}

	override traceOf(contest: string): Promise<readonly TraceStep[]> {
		return Promise.resolve(this.#byContest.get(contest)?.people.trace ?? []);
	}

	override picture(page: number, window?: PictureWindow): Promise<Picture | undefined> {
		const image = this.images.get(page);
		if (!image) return Promise.resolve(undefined);
		const { x, y, width, height } = window ?? { x: 0, y: 0, width: 1e4, height: 1e4 };
		const within = (value: number, most: number): number => Math.max(0, Math.min(most, value));
		const left = within(Math.floor(x * PX_PER_PT), image.width);
		const top = within(Math.floor(y * PX_PER_PT), image.height);
		const widthPx = within(Math.ceil((x + width) * PX_PER_PT), image.width) - left;
		const heightPx = within(Math.ceil((y + height) * PX_PER_PT), image.height) - top;
		const grey = new Uint8Array(Math.max(0, widthPx * heightPx));
		for (let row = 0; row < heightPx; row += 1) {
			const from = (top + row) * image.width + left;
			grey.set(image.data.subarray(from, from + widthPx), row * widthPx);
		}
		return Promise.resolve({ widthPx, heightPx, grey });
	}
}
