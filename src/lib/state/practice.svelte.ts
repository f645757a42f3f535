import { ballotOf, type Ballot } from '$core/election/ballot';
import { nextEnd } from '$core/election/dates';
import type { Election, Stage } from '$core/election/election';
import type { Mishap, PageInk, Stroke, Tool } from '$core/ink/stroke';
import type { Layout } from '$core/layout/layout';
import type { PrintedWords } from '$core/layout/words';
import type { PackedOutlines } from '$core/layout/font/glyph';
import outlinesUrl from '$core/layout/font/outlines.json?url';
import type { Mark, TargetReading } from '$core/marks/mark';
import type { BallotStatement, ContestReading, TraceStep } from '$core/reading/statement';
import type { Rulebook } from '$core/rules/rule';
import { Reader, type Picture } from '$lib/worker/reader';
import type { PictureWindow, Reading } from '$lib/worker/messages';
import { AFTER_NOTE_MS } from './afterNote';
import { everyMinute } from './everyMinute';

/* eslint-disable svelte/prefer-svelte-reactivity -- maps are replaced whole ($state.raw), never changed in place */

/** `live`: a reading after each pen-up. `paper`: nothing is said until the voter is done, as with real paper. */
export type Mode = 'live' | 'paper';

export interface PracticeSetup {
	readonly election: Election;
	/** The sheet: style and printed languages are its own. */
	readonly layout: Layout;
	/** The printed words in each language of the sheet. */
	readonly words: PrintedWords;
	readonly rulebook: Rulebook;
}

const NOTHING_READ: ReadonlyMap<string, ContestReading> = new Map();

/** The reading of one contest, by itself: who shows one contest is not asked again when another one is marked. */
class Cell {
	reading = $state.raw<ContestReading | undefined>(undefined);
}

/** One act of the voter: one undo takes back all of it. */
interface Act {
	readonly page: number;
	readonly strokes: number;
	readonly mishaps: number;
}

/**
 * One voter's practice: the ballot, the ink on it, and what the reader says. Everything lives in memory
 * and is gone when the page is left. Nothing is ever unmarked by itself.
 */
export class Practice {
	readonly setup: PracticeSetup;
	readonly ballot: Ballot;
	readonly layout: Layout;

	tool = $state<Tool>('ballpoint');
	mode = $state<Mode>('live');
	stage = $state<Stage>('holding');
	/** Id of the contest the voter is at (phone: the one shown). */
	contest = $state<string>('');
	/** In `paper` mode: whether the voter said "read it now". */
	finished = $state(false);
	/** Whether the worker is ready. */
	ready = $state(false);
	failure = $state<string | undefined>(undefined);
	/** An instant since which no date of the election has ended, so that the office's words change when one does. */
	nowUtcMs = $state(Date.now());

	#pages = $state.raw<readonly PageInk[]>([]);
	#acts = $state.raw<readonly Act[]>([]);
	/** Told apart from the acts, so that a second mark changes nothing that depends on it. */
	readonly #hasInk = $derived(this.#acts.length > 0);
	#hasDryInk = $state(false);
	#contests = $state.raw<ReadonlyMap<string, ContestReading>>(new Map());
	#marks = $state.raw<readonly Mark[]>([]);
	#targets = $state.raw<readonly TargetReading[]>([]);
	readonly #cells: ReadonlyMap<string, Cell>;
	#statement = $state.raw<BallotStatement | undefined>(undefined);
	#reader: Reader | undefined;
	#stopClock: (() => void) | undefined;

	constructor(setup: PracticeSetup) {
		this.setup = setup;
		this.layout = setup.layout;
		this.ballot = ballotOf(setup.election, setup.layout.style);
		this.contest = this.ballot.contests[0]?.id ?? '';
		this.#cells = new Map(this.ballot.contests.map(({ id }) => [id, new Cell()]));
		this.#pages = this.#blank();
	}

	/** All ink, page by page. A new array after every act. */
	get pages(): readonly PageInk[] {
		return this.#pages;
	}

	get marks(): readonly Mark[] {
		return this.shown ? this.#marks : [];
	}

	get targets(): readonly TargetReading[] {
		return this.shown ? this.#targets : [];
	}

	get statement(): BallotStatement | undefined {
		return this.shown ? this.#statement : undefined;
	}

	/** Whether there is anything on the sheet, so that it can be taken back. */
	get hasInk(): boolean {
		return this.#hasInk;
	}

	/** The same, a moment after the first mark: for buttons that take ink back or speak of it. */
	get hasDryInk(): boolean {
		return this.#hasDryInk;
	}

	/** Whether readings may be shown now: always in `live`, after "read it now" in `paper`. */
	get shown(): boolean {
		return this.mode === 'live' || this.finished;
	}

	/** Readings by contest, where they may be shown. A contest whose reading stayed the same keeps the same object. */
	get readings(): ReadonlyMap<string, ContestReading> {
		return this.shown ? this.#contests : NOTHING_READ;
	}

	/** The reading of a contest, where it may be shown and there is one. */
	readingOf(contest: string): ContestReading | undefined {
		return this.shown ? this.#cells.get(contest)?.reading : undefined;
	}

	/** Starts the worker, if it is not there. Call in the browser only; prerendering has none. */
	async start(): Promise<void> {
		if (this.#reader) return;
		this.#stopClock ??= this.watchDates();
		const reader = new Reader(({ contests, marks, targets }) => {
			this.#take(contests);
			this.#marks = marks;
			this.#targets = targets;
		});
		this.#reader = reader;
		const { election, layout, rulebook } = this.setup;
		// Data, so fetched as data: a font's outlines need no parsing as a program.
		const outlines = fetch(outlinesUrl).then((answer) => answer.json() as Promise<PackedOutlines>);
		await this.#settle(
			outlines.then((font) => reader.read({ kind: 'open', election, layout, rulebook, outlines: font }))
		);
		this.ready = this.failure === undefined;
		if (!this.ready) {
			// The next try, at the next mark, begins with a new worker.
			reader.close();
			this.#reader = undefined;
		} else if (this.hasInk) await this.#resend();
	}

	stop(): void {
		this.#stopClock?.();
		this.#stopClock = undefined;
		this.#reader?.close();
		this.#reader = undefined;
		this.ready = false;
	}

	/** Puts strokes on a page as one act: a drawn stroke, or all strokes of a placed mark. */
	async addStrokes(page: number, strokes: readonly Stroke[]): Promise<void> {
		await this.#add(page, strokes, []);
	}

	/** Tells the reader what a hand is drawing now; it is on the page when the pen goes up, by `addStrokes`. */
	foresee(page: number, strokes: readonly Stroke[]): void {
		if (this.ready) this.#reader?.foresee(page, strokes);
	}

	async addMishap(page: number, mishap: Mishap): Promise<void> {
		await this.#add(page, [], [mishap]);
	}

	/** Takes back the last act. Real paper has no such thing, and the button says so. */
	async undo(): Promise<void> {
		const act = this.#acts.at(-1);
		if (!act) return;
		this.#acts = this.#acts.slice(0, -1);
		this.#hasDryInk = this.hasInk;
		this.#change(act.page, (ink) => ({
			...ink,
			strokes: ink.strokes.slice(0, ink.strokes.length - act.strokes),
			mishaps: (ink.mishaps ?? []).slice(0, (ink.mishaps ?? []).length - act.mishaps)
		}));
		await this.#resend();
	}

	/** A fresh sheet. */
	async clear(): Promise<void> {
		this.#acts = [];
		this.#hasDryInk = false;
		this.#pages = this.#blank();
		this.finished = false;
		await this.#resend();
	}

	/** "Read it now", in `paper` mode. */
	finish(): void {
		this.finished = true;
	}

	/** The clauses looked at for a contest and what came of each; empty where there is no reader. */
	async traceOf(contest: string): Promise<readonly TraceStep[]> {
		return (await this.#reader?.trace(contest)) ?? [];
	}

	/** The grey page, or a window of it, as the scanner sees it. */
	async picture(page: number, window?: PictureWindow): Promise<Picture | undefined> {
		return this.#reader?.picture(page, window);
	}

	async #add(page: number, strokes: readonly Stroke[], mishaps: readonly Mishap[]): Promise<void> {
		this.#acts = [...this.#acts, { page, strokes: strokes.length, mishaps: mishaps.length }];
		if (!this.#hasDryInk) setTimeout(() => (this.#hasDryInk = this.hasInk), AFTER_NOTE_MS);
		this.#change(page, (ink) => ({
			...ink,
			strokes: [...ink.strokes, ...strokes],
			mishaps: [...(ink.mishaps ?? []), ...mishaps]
		}));
		if (this.mode === 'paper') this.finished = false;
		if (!this.#reader) await this.start();
		else if (this.ready) await this.#settle(this.#reader.read({ kind: 'add', page, strokes, mishaps }));
	}

	/** Keeps `nowUtcMs` up to date until the function that it returns is called. `start` does so by itself. */
	watchDates(): () => void {
		let endsAtUtcMs = 0;
		return everyMinute((nowUtcMs) => {
			if (nowUtcMs < endsAtUtcMs) return;
			this.nowUtcMs = nowUtcMs;
			endsAtUtcMs = nextEnd(this.setup.election, nowUtcMs) ?? Infinity;
		});
	}

	#change(page: number, how: (ink: PageInk) => PageInk): void {
		this.#pages = this.#pages.map((ink) => (ink.page === page ? how(ink) : ink));
	}

	async #resend(): Promise<void> {
		if (this.#reader) await this.#settle(this.#reader.read({ kind: 'set', pages: this.#pages }));
	}

	async #settle(asked: Promise<Reading>): Promise<void> {
		try {
			const { contests, ballot } = await asked;
			this.#take(contests);
			this.#statement = ballot;
			this.failure = undefined;
		} catch (error) {
			this.failure = error instanceof Error ? error.message : String(error);
		}
	}

	#take(contests: readonly ContestReading[]): void {
		if (contests.length === 0) return;
		const all = new Map(this.#contests);
		for (const reading of contests) {
			all.set(reading.contest, reading);
			const cell = this.#cells.get(reading.contest);
			if (cell) cell.reading = reading;
		}
		this.#contests = all;
	}

	#blank(): readonly PageInk[] {
		return this.layout.pages.map(({ page }) => ({ page, strokes: [], mishaps: [] }));
	}
}
