import type { Election } from '$core/election/election';
import type { GreyImage } from '$core/image';
import type { PhotoSetup } from '$core/photo/photoSheets';
import type { Guide } from './guide';
import type { PhotoPractice } from './photoPractice.svelte';
import type { PhotoReader } from './photoReader';
import type { ReadBallot, RefusedPhoto, SeenBallot, Step } from './readPhoto';

/* eslint-disable svelte/prefer-svelte-reactivity -- maps are replaced whole, never changed in place */

/** A photo that was not read: its number among those chosen, and why. */
export interface Turned extends RefusedPhoto {
	readonly at: number;
}

/**
 * The photos of one ballot: what is being done with one, why one was not read, and what came of all. A photo is handed to
 * the worker and kept nowhere; what stays is the flat grey page that was made of it, until `clear`.
 */
export class PhotoDesk {
	readonly #setup: PhotoSetup;
	#reader: PhotoReader | undefined;
	#seen: SeenBallot | undefined;
	#images: ReadonlyMap<number, GreyImage> = new Map();
	#round = 0;

	/** What is being done now; undefined while nothing is. */
	step = $state<Step>();
	/** The photo that is being read, of how many chosen together. */
	at = $state(0);
	count = $state(0);
	refusals = $state.raw<readonly Turned[]>([]);
	/** A fault of the app, in its own words. */
	failure = $state<string>();
	practice = $state.raw<PhotoPractice>();

	constructor(setup: PhotoSetup) {
		this.#setup = setup;
	}

	get elections(): readonly Election[] {
		return this.#setup.elections;
	}

	get isBusy(): boolean {
		return this.step !== undefined || this.practice !== undefined;
	}

	/** Reads photos one after another. False where none was read, or it was stopped. */
	async read(photos: readonly (Blob | ImageBitmap)[]): Promise<boolean> {
		const round = ++this.#round;
		this.refusals = [];
		this.failure = undefined;
		this.count = photos.length;
		this.step = 'open';
		let isRead = false;
		try {
			const reader = await this.#open();
			for (const [i, photo] of photos.entries()) {
				this.at = i + 1;
				const result = await reader.read(photo, this.#seen, (step) => {
					if (round === this.#round) this.step = step;
				});
				if (round !== this.#round) return false;
				if ('refused' in result) this.refusals = [...this.refusals, { ...result, at: i + 1 }];
				else {
					await this.#show(result, round);
					isRead = true;
				}
			}
		} catch (error) {
			if (round === this.#round) this.failure = error instanceof Error ? error.message : String(error);
		}
		if (round !== this.#round) return false;
		this.step = undefined;
		return isRead;
	}

	/** What the camera's picture needs. The frame is handed over. */
	async look(frame: ImageBitmap, finer: number): Promise<Guide> {
		return (await this.#open()).look(frame, finer);
	}

	/** Gives up the photo that is being read; what was read before stays. */
	stop(): void {
		this.#round += 1;
		this.#reader?.giveUp();
		this.step = undefined;
	}

	/** Keeps nothing: no page, no reading, and no worker that might hold some of it. */
	clear(): void {
		this.stop();
		this.#seen = undefined;
		this.#images = new Map();
		this.practice = undefined;
		this.refusals = [];
		this.failure = undefined;
		this.count = 0;
	}

	async #open(): Promise<PhotoReader> {
		if (!this.#reader) {
			const { PhotoReader } = await import('./photoReader');
			this.#reader ??= new PhotoReader(this.#setup);
		}
		return this.#reader;
	}

	async #show(read: ReadBallot, round: number): Promise<void> {
		const { PhotoPractice } = await import('./photoPractice.svelte');
		const { elections, words, rulebook } = this.#setup;
		const election = elections.find(({ id }) => id === read.seen.election);
		if (!election) throw new RangeError(`PhotoDesk: expected an election of this page, got "${read.seen.election}"`);
		if (round !== this.#round) return;
		this.#seen = read.seen;
		this.#images = new Map([...this.#images, [read.page, read.image]]);
		this.practice = new PhotoPractice({ election, words, rulebook }, read, this.#images);
	}
}
