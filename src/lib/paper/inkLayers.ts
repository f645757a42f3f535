import { around, grow, type Box } from '$core/geometry';
import type { PageInk, Stroke } from '$core/ink/stroke';
import { AFTER_NOTE_MS } from '$lib/state/afterNote';
import { InkTiles, type SheetSize } from './inkTiles';
import { nibPt, paintInk, paintStroke } from './paintInk';
import type { Placed } from './placed';
import { isSame } from './view';

/** What a sheet shows: the ink of its page, the part of the page, and its own size in pixels of the screen. */
export interface Shown {
	readonly ink: PageInk;
	readonly view: Box;
	readonly size: SheetSize;
}

/**
 * The ink on a sheet in two layers: dry ink, which is painted again only where it changed, and over it the wet ink of
 * the stroke that is being drawn, by a hand or before the eye.
 */
export class InkLayers {
	readonly #view: () => Box;
	#dry: InkTiles | undefined;
	#wet: InkTiles | undefined;
	#painted: Shown | undefined;
	/** What is to be painted when the ink that is still wet has dried. */
	#latest: Shown | undefined;
	#held: ReturnType<typeof setTimeout> | undefined;
	/** Number of the last mark that was drawn before the eye, and whether it still is. */
	#animated = 0;
	#isMoving = false;
	#frame = 0;
	/** What the stroke under the hand covers so far. */
	#drawn: Box | undefined;

	/** `view` is the part of the page that the sheet shows now. */
	constructor(view: () => Box) {
		this.#view = view;
	}

	/** Puts the dry layer into `host`. Returns what takes it away. */
	layDry(host: HTMLElement): () => void {
		this.#dry = new InkTiles(host);
		return () => {
			this.release();
			this.#dry = undefined;
			this.#painted = undefined;
		};
	}

	/** Puts the wet layer into `host`. Returns what takes it away. */
	layWet(host: HTMLElement): () => void {
		this.#wet = new InkTiles(host);
		return () => {
			this.#wet = undefined;
		};
	}

	/** An empty wet layer of this size. */
	resetWet(size: SheetSize): void {
		this.#wet?.reset(size);
	}

	/** Nothing more is painted by itself. */
	stop(): void {
		cancelAnimationFrame(this.#frame);
	}

	/** Shows what is on the sheet now; a mark that was just placed by keys is drawn before the eye. */
	show(now: Shown, mark: Placed | undefined): void {
		const before = this.#painted;
		const isSameSheet = before !== undefined && before.size === now.size && isSame(before.view, now.view);
		if (this.#held !== undefined && isSameSheet && !this.#isNew(mark)) this.#latest = now;
		else {
			this.release();
			this.#animate(now, mark);
		}
	}

	/** The stroke under the hand, as far as it goes. */
	draw(stroke: Stroke): void {
		const view = this.#view();
		if (this.#drawn) this.#wet?.clear(view, this.#drawn);
		this.#drawn = boxOf(stroke);
		this.#wet?.paint(view, this.#drawn, (context) => {
			paintStroke(context, stroke);
		});
	}

	/** Erasing changes ink that is already dry, so all of it is painted again under the live eraser. */
	erase(shown: () => Shown | undefined): void {
		cancelAnimationFrame(this.#frame);
		this.#frame = requestAnimationFrame(() => {
			const now = shown();
			if (now) this.#paintAnew(now);
		});
	}

	/** The pen went up: its stroke is part of the ink from now on. It stays wet until its note is there, which nobody sees. */
	lift(isEraser: boolean): void {
		if (!isEraser)
			this.#held = setTimeout(() => {
				this.release();
			}, AFTER_NOTE_MS);
		this.#drawn = undefined;
	}

	/** The stroke under the hand is none: all is as it was. */
	drop(now: Shown | undefined): void {
		if (this.#drawn) this.#wet?.clear(this.#view(), this.#drawn);
		this.#drawn = undefined;
		if (now) this.#paintAnew(now);
	}

	/** Dries the ink that is still wet, a mark that is being drawn before the eye too: the whole of it is there then. */
	release(): void {
		if (this.#held === undefined && !this.#isMoving) return;
		clearTimeout(this.#held);
		this.#held = undefined;
		if (this.#isMoving) cancelAnimationFrame(this.#frame);
		this.#isMoving = false;
		if (this.#latest) this.#paint(this.#latest);
		this.#latest = undefined;
		this.#wet?.rest(this.#view());
	}

	/** A mark placed by keys that was not drawn before the eye yet. */
	#isNew(mark: Placed | undefined): mark is Placed {
		return mark !== undefined && mark.number > this.#animated && mark.strokes.length > 0;
	}

	#animate(now: Shown, mark: Placed | undefined): void {
		cancelAnimationFrame(this.#frame);
		if (!this.#isNew(mark) || matchMedia('(prefers-reduced-motion: reduce)').matches) {
			this.#paint(now);
			return;
		}
		this.#animated = mark.number;
		this.#isMoving = true;
		this.#latest = now;
		const kept = now.ink.strokes.length - mark.strokes.length;
		this.#paint({ ...now, ink: { ...now.ink, strokes: now.ink.strokes.slice(0, kept) } });
		const total = mark.strokes.reduce((sum, stroke) => sum + stroke.points.length, 0);
		const lastMs = Math.min(700, 180 + total * 6);
		let startMs: number | undefined;
		const step = (ms: number): void => {
			startMs ??= ms;
			const share = (ms - startMs) / lastMs;
			if (share >= 1) {
				this.release();
				return;
			}
			const view = this.#view();
			this.#wet?.clear(view);
			let left = Math.ceil(share * total);
			for (const stroke of mark.strokes) {
				const count = Math.min(left, stroke.points.length);
				if (count > 0)
					this.#wet?.paint(view, boxOf(stroke), (context) => {
						paintStroke(context, stroke, count);
					});
				left -= stroke.points.length;
			}
			this.#frame = requestAnimationFrame(step);
		};
		this.#frame = requestAnimationFrame(step);
	}

	#paintAnew(now: Shown): void {
		this.#painted = undefined;
		this.#paint(now);
	}

	/** Paints only what came on top where the rest is as it was. */
	#paint(now: Shown): void {
		const dry = this.#dry;
		if (!dry) return;
		const before = this.#painted;
		this.#painted = now;
		const view = this.#view();
		if (!before || !isGrown(before, now)) {
			dry.reset(now.size);
			const { strokes, mishaps = [] } = now.ink;
			if (strokes.length + mishaps.length === 0) return;
			// Mishaps may lie anywhere; else only tiles with a stroke are made.
			const box = mishaps.length > 0 ? undefined : around(strokes.map(boxOf));
			dry.paint(view, box, (context) => {
				paintInk(context, now.ink);
			});
			return;
		}
		for (const stroke of now.ink.strokes.slice(before.ink.strokes.length))
			dry.paint(view, boxOf(stroke), (context) => {
				paintStroke(context, stroke);
			});
	}
}

/** Whether strokes came on top and all else is as it was. */
function isGrown(before: Shown, now: Shown): boolean {
	return (
		isSame(before.view, now.view) &&
		before.size === now.size &&
		(before.ink.mishaps?.length ?? 0) === (now.ink.mishaps?.length ?? 0) &&
		!now.ink.mishaps?.length &&
		!now.ink.strokes.some(({ tool }) => tool === 'eraser') &&
		before.ink.strokes.length <= now.ink.strokes.length &&
		before.ink.strokes.every((stroke, i) => stroke === now.ink.strokes[i])
	);
}

/** All that a stroke's ink can reach. */
function boxOf(stroke: Stroke): Box {
	return grow(around(stroke.points.map(([x, y]) => ({ x, y, width: 0, height: 0 }))), nibPt(stroke) + 1);
}
