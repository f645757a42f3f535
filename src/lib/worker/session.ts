import { grow, overlaps, around, type Box } from '$core/geometry';
import type { GreyImage, PixelBox } from '$core/image';
import { PX_PER_PT } from '$core/image';
import type { Mishap, PageInk, Stroke } from '$core/ink/stroke';
import { provideOutlines } from '$core/layout/font/glyph';
import type { Layout } from '$core/layout/layout';
import { findMarks } from '$core/marks/findMarks';
import type { PageMarks } from '$core/marks/mark';
import { numberMarks } from '$core/marks/numberMarks';
import { inkPageInPlace } from '$core/page/inkPage';
import { printPage } from '$core/page/printPage';
import { reachPt } from '$core/page/strokePath';
import { readMarks, type OpenBallot } from '$core/read';
import type { PeopleStatement, TraceStep } from '$core/reading/statement';
import type { Found, PictureWindow, Question, Reading } from './messages';
import type { Picture } from './reader';

type Open = Extract<Question, { kind: 'open' }>;

/** Marks closer than this may be parts of one mark, so a window must hold both. In points. */
const GROUPING_PT = 14;

/**
 * One ballot in the worker: its printed pages, the ink on them, and what was found. After a pen-up only
 * the part of the page that the new ink can have changed is drawn and read again; a test holds it to
 * the same result as reading the whole page.
 */
export class Session {
	readonly #open: OpenBallot;
	readonly #images: GreyImage[];
	readonly #anchors: readonly (readonly Box[])[];
	#ink: PageInk[];
	#found: PageMarks[];
	#sent = new Map<string, string>();
	/** Contests in which a target or mark came, went or changed since the last reading. */
	#touched = new Set<string>();
	#people = new Map<string, PeopleStatement>();

	constructor(open: OpenBallot) {
		const { layout, prints } = open;
		this.#open = open;
		this.#anchors = layout.pages.map(({ choices }) => choices.map(({ target }) => target));
		this.#images = prints.map((print) => ({ ...print, data: print.data.slice() }));
		this.#ink = layout.pages.map(({ page }) => ({ page, strokes: [], mishaps: [] }));
		this.#found = layout.pages.map(({ page }) => this.#look(page));
	}

	/** Draws the printed pages; what costs most of opening a ballot. */
	static open({ election, layout, rulebook, outlines }: Omit<Open, 'kind' | 'number'>): Session {
		provideOutlines(outlines);
		const prints = layout.pages.map(({ page }) => printPage(layout, page));
		return new Session({ election, layout, rulebook, prints });
	}

	/** A blank sheet of the same ballot. */
	another(): Session {
		return new Session(this.#open);
	}

	get layout(): Layout {
		return this.#open.layout;
	}

	/** Readings of all contests that changed since the last call, without their traces. */
	read(): Omit<Reading, 'workMs'> {
		return this.#read();
	}

	/**
	 * The same of contests in which ink was added or taken since the last reading: what a voter waits for. A change elsewhere,
	 * such as a primary's rule brings or another mark's number, comes with the next `read`.
	 */
	readTouched(): Omit<Reading, 'workMs'> {
		return this.#read(this.#touched);
	}

	#read(wanted?: ReadonlySet<string>): Omit<Reading, 'workMs'> {
		this.#found = [...numberMarks(this.#found)];
		const { contests, ballot } = readMarks(this.#found, this.#open, wanted);
		this.#touched.clear();
		for (const { contest, people } of contests) this.#people.set(contest, people);
		const changed = contests
			.map((reading) => ({ ...reading, people: untraced(reading.people) }))
			.filter((reading) => {
				const text = JSON.stringify(reading);
				const same = this.#sent.get(reading.contest) === text;
				this.#sent.set(reading.contest, text);
				return !same;
			});
		return { contests: changed, ballot: untraced(ballot) };
	}

	/** All marks and targets, with the marks' ids as in the last reading. */
	found(): Omit<Found, 'contests'> {
		return {
			marks: this.#found.flatMap(({ marks }) => marks),
			targets: this.#found.flatMap(({ targets }) => targets)
		};
	}

	/** The clauses looked at in the last reading of a contest; empty for a contest that was not read. */
	trace(contest: string): readonly TraceStep[] {
		return this.#people.get(contest)?.trace ?? [];
	}

	/** Adds ink to a page and looks again where it can have changed something. */
	add(page: number, strokes: readonly Stroke[], mishaps: readonly Mishap[]): void {
		const index = this.#indexOf(page);
		this.#ink[index] = {
			page,
			strokes: [...this.#inkOf(index).strokes, ...strokes],
			mishaps: [...(this.#inkOf(index).mishaps ?? []), ...mishaps]
		};
		const boxes = strokes.filter(({ points }) => points.length > 0).map(boxOf);
		if (mishaps.length > 0) {
			this.#draw(index);
			this.#find(index);
		} else if (boxes.length > 0) {
			const changed = around(boxes);
			this.#draw(index, changed);
			this.#find(index, this.#reach(index, changed));
		}
	}

	/**
	 * Reads as if these strokes were there, and forgets it: all stays as it was. What a hand is still drawing is read sooner at
	 * pen-up when its place on the page and the code for it have just been used.
	 */
	foresee(page: number, strokes: readonly Stroke[]): void {
		const index = this.#indexOf(page);
		const ink = this.#inkOf(index);
		const found = [...this.#found];
		const [sent, people, touched] = [new Map(this.#sent), new Map(this.#people), new Set(this.#touched)];
		try {
			this.add(page, strokes, []);
			this.readTouched();
		} finally {
			this.#ink[index] = ink;
			this.#found = found;
			this.#sent = sent;
			this.#people = people;
			this.#touched = touched;
			const boxes = strokes.filter(({ points }) => points.length > 0).map(boxOf);
			if (boxes.length > 0) this.#draw(index, around(boxes));
		}
	}

	/** Replaces all ink: after an undo or on a fresh sheet. */
	set(pages: readonly PageInk[]): void {
		for (const ink of pages) {
			const index = this.#indexOf(ink.page);
			this.#ink[index] = ink;
			this.#draw(index);
			this.#find(index);
		}
	}

	/** A copy of the grey page, or of a window of it. */
	picture(page: number, window?: PictureWindow): Picture {
		const image = this.#imageOf(this.#indexOf(page));
		const { xPx, yPx, widthPx, heightPx } = pixelsOf(window ?? { x: 0, y: 0, width: 1e4, height: 1e4 }, image);
		const grey = new Uint8Array(widthPx * heightPx);
		for (let row = 0; row < heightPx; row += 1) {
			const from = (yPx + row) * image.width + xPx;
			grey.set(image.data.subarray(from, from + widthPx), row * widthPx);
		}
		return { widthPx, heightPx, grey };
	}

	#draw(index: number, window?: Box): void {
		const image = this.#imageOf(index);
		const print = this.#open.prints[index];
		if (!print) throw new RangeError(`Session: no printed page ${index + 1}`);
		const pixels = pixelsOf(window ?? { x: 0, y: 0, width: 1e4, height: 1e4 }, image);
		inkPageInPlace(image, print, this.#inkOf(index), this.#anchors[index] ?? [], pixels);
	}

	#find(index: number, window?: Box): void {
		const before = this.#found[index];
		const now = this.#look(index + 1, window);
		if (!before || !window) {
			this.#found[index] = now;
			return;
		}
		const measured = new Map(now.targets.map((target) => [keyOf(target), target]));
		const gone = before.marks.filter(({ box }) => overlaps(box, window));
		this.#found[index] = {
			page: index + 1,
			targets: before.targets.map((target) => measured.get(keyOf(target)) ?? target),
			marks: [...before.marks.filter((mark) => !gone.includes(mark)), ...now.marks]
		};
		for (const { contest } of [...now.targets, ...gone, ...now.marks])
			if (contest !== undefined) this.#touched.add(contest);
	}

	#look(page: number, window?: Box): PageMarks {
		const index = page - 1;
		const { election, layout, prints } = this.#open;
		const print = prints[index];
		if (!print) throw new RangeError(`Session: no printed page ${page}`);
		const options = { thresholds: election.thresholds, ...(window ? { window } : {}) };
		return findMarks(this.#imageOf(index), print, layout, page, options);
	}

	/** The part of the page in which `changed` can alter a finding: whole marks with their neighbours. */
	#reach(index: number, changed: Box): Box {
		const whole = (this.#found[index]?.marks ?? []).map(({ box }) => grow(box, GROUPING_PT));
		let reach = grow(changed, GROUPING_PT);
		for (;;) {
			const wider = around([reach, ...whole.filter((box) => overlaps(box, reach))]);
			if (wider.width === reach.width && wider.height === reach.height) return reach;
			reach = wider;
		}
	}

	#indexOf(page: number): number {
		if (!Number.isInteger(page) || page < 1 || page > this.#images.length)
			throw new RangeError(`Session: expected a page from 1 to ${this.#images.length}, got ${page}`);
		return page - 1;
	}

	#inkOf(index: number): PageInk {
		return this.#ink[index] ?? { page: index + 1, strokes: [] };
	}

	#imageOf(index: number): GreyImage {
		const image = this.#images[index];
		if (!image) throw new RangeError(`Session: no page image ${index + 1}`);
		return image;
	}
}

/** The statement with an empty trace. A trace is made when it is first read, so it is left alone here. */
function untraced<T extends { readonly trace: readonly TraceStep[] }>(statement: T): T {
	const names = Object.keys(statement).filter((name) => name !== 'trace') as (keyof T)[];
	return { ...Object.fromEntries(names.map((name) => [name, statement[name]])), trace: [] } as unknown as T;
}

const keyOf = (target: { contest: string; choice: string; rank?: number }): string =>
	`${target.contest}/${target.choice}/${target.rank ?? 0}`;

/** All that a stroke can touch. */
function boxOf(stroke: Stroke): Box {
	const xs = stroke.points.map(([x]) => x);
	const ys = stroke.points.map(([, y]) => y);
	const left = xs.reduce((a, b) => Math.min(a, b), Infinity);
	const top = ys.reduce((a, b) => Math.min(a, b), Infinity);
	const right = xs.reduce((a, b) => Math.max(a, b), -Infinity);
	const bottom = ys.reduce((a, b) => Math.max(a, b), -Infinity);
	return grow({ x: left, y: top, width: right - left, height: bottom - top }, reachPt(stroke));
}

function pixelsOf(box: Box, { width, height }: GreyImage): PixelBox {
	const xPx = Math.min(width, Math.max(0, Math.floor(box.x * PX_PER_PT)));
	const yPx = Math.min(height, Math.max(0, Math.floor(box.y * PX_PER_PT)));
	const right = Math.min(width, Math.max(xPx, Math.ceil((box.x + box.width) * PX_PER_PT)));
	const bottom = Math.min(height, Math.max(yPx, Math.ceil((box.y + box.height) * PX_PER_PT)));
	return { xPx, yPx, widthPx: right - xPx, heightPx: bottom - yPx };
}
