import type { Point } from '$core/geometry';
import type { StrokePoint } from '$core/ink/stroke';

/** What is needed of a PointerEvent, so that tests need no browser. */
export interface HandSample {
	readonly clientX: number;
	readonly clientY: number;
	readonly timeStamp: number;
}

export interface HandEvent extends HandSample {
	readonly pointerId: number;
	readonly pointerType: string;
	readonly button: number;
	/** The samples that the browser merged into this event; without it the event is its only sample. */
	getCoalescedEvents?(): readonly HandSample[];
}

/** What the caller does with an event: draw with it, move the page by `Hand.moved`, or nothing. */
export type HandAct = 'draw' | 'scroll' | 'ignore';

/**
 * A second finger this soon after the first means "move the page", so the dot of the first is dropped.
 * Later than this it is a resting hand and is ignored. Found by trial.
 */
const TWO_FINGERS_MS = 250;

/** A finger that has not moved yet leaves the second one more time, and this much room to tremble. Found by trial. */
const SLOW_FINGERS_MS = 1000;
const STILL_PX = 4;

/** After a pen was on the paper, touches this soon are the hand that holds it. Found by trial. */
const PALM_MS = 1000;

/** Ink may run off the sheet, but not far: a lost pointer must not leave points at the end of the world. */
const OFF_SHEET_PT = 36;

/** A hundredth of a point is finer than any digitiser and keeps strokes short. */
const round = (pt: number): number => Math.round(pt * 100) / 100;

/**
 * Turns pointer events into one stroke at a time. One finger draws, two fingers move the page, a pen
 * beats fingers, and a cancelled touch (a palm) leaves nothing. All samples are kept as they came.
 */
export class Hand {
	readonly #toPage: (clientX: number, clientY: number) => Point;
	readonly #size: { readonly widthPt: number; readonly heightPt: number };
	#points: StrokePoint[] = [];
	#lastSample: HandSample | undefined;
	#drawing: { readonly id: number; readonly type: string; readonly startMs: number } | undefined;
	#still = true;
	#fingers = new Map<number, Point>();
	#scrolling = false;
	#penMs = Number.NEGATIVE_INFINITY;
	#moved: Point = { x: 0, y: 0 };

	/** `toPage` maps a place in the window to points on the page. */
	constructor(
		toPage: (clientX: number, clientY: number) => Point,
		size: { readonly widthPt: number; readonly heightPt: number }
	) {
		this.#toPage = toPage;
		this.#size = size;
	}

	/** The stroke so far. The same array grows while the pen is down. */
	get points(): readonly StrokePoint[] {
		return this.#points;
	}

	get isDrawing(): boolean {
		return this.#drawing !== undefined;
	}

	/** By how much the last `scroll` moved the page, in CSS pixels. */
	get moved(): Point {
		return this.#moved;
	}

	down(event: HandEvent): HandAct {
		if (event.pointerType === 'pen') {
			this.#fingers.clear();
			this.#scrolling = false;
			this.#penMs = event.timeStamp;
			return this.#drawing?.type === 'pen' ? 'ignore' : this.#begin(event);
		}
		if (event.pointerType !== 'touch') {
			return this.#drawing || event.button !== 0 ? 'ignore' : this.#begin(event);
		}
		if (this.#drawing && this.#drawing.type !== 'touch') return 'ignore';
		if (event.timeStamp - this.#penMs < PALM_MS) return 'ignore';
		if (!this.#drawing) {
			if (this.#scrolling) return 'ignore';
			this.#fingers.set(event.pointerId, { x: event.clientX, y: event.clientY });
			return this.#begin(event);
		}
		const lateMs = event.timeStamp - this.#drawing.startMs;
		if (lateMs > (this.#still ? SLOW_FINGERS_MS : TWO_FINGERS_MS)) return 'ignore';
		this.#fingers.set(event.pointerId, { x: event.clientX, y: event.clientY });
		this.#drop();
		this.#scrolling = true;
		return 'scroll';
	}

	move(event: HandEvent): HandAct {
		if (this.#scrolling) return this.#scroll(event);
		if (this.#drawing?.id !== event.pointerId) return 'ignore';
		if (this.#drawing.type === 'pen') this.#penMs = event.timeStamp;
		const down = this.#fingers.get(event.pointerId);
		if (down && Math.hypot(event.clientX - down.x, event.clientY - down.y) > STILL_PX) this.#still = false;
		const merged = event.getCoalescedEvents?.() ?? [];
		if (merged.length === 0) this.#add(event);
		for (const sample of merged) this.#add(sample);
		return 'draw';
	}

	/** The finished stroke, or undefined when this pointer was not drawing. */
	up(event: HandEvent): readonly StrokePoint[] | undefined {
		if (this.#drawing?.id !== event.pointerId) {
			this.#lift(event.pointerId);
			return undefined;
		}
		if (this.#drawing.type === 'pen') this.#penMs = event.timeStamp;
		// A pen is mostly lifted where it was last seen; where that is on the page need not be asked again.
		if (event.clientX !== this.#lastSample?.clientX || event.clientY !== this.#lastSample.clientY) {
			const last = this.#points.at(-1);
			const place = this.#place(event);
			if (last?.[0] !== place.x || last[1] !== place.y) this.#add(event);
		}
		const points = this.#points;
		this.#lift(event.pointerId);
		this.#drop();
		return points;
	}

	/** A palm, a call, a system gesture: what this pointer drew never was. */
	cancel(event: Pick<HandEvent, 'pointerId'>): void {
		this.#lift(event.pointerId);
		if (this.#drawing?.id === event.pointerId) this.#drop();
	}

	#begin(event: HandEvent): HandAct {
		this.#drawing = { id: event.pointerId, type: event.pointerType, startMs: event.timeStamp };
		this.#points = [];
		this.#still = true;
		this.#add(event);
		return 'draw';
	}

	#add(sample: HandSample): void {
		this.#lastSample = sample;
		const { x, y } = this.#place(sample);
		const startMs = this.#drawing?.startMs ?? sample.timeStamp;
		this.#points.push([x, y, Math.max(0, Math.round(sample.timeStamp - startMs))]);
	}

	#place({ clientX, clientY }: HandSample): Point {
		const { x, y } = this.#toPage(clientX, clientY);
		return { x: round(within(x, this.#size.widthPt)), y: round(within(y, this.#size.heightPt)) };
	}

	/** Two fingers move the page by the mean of their moves: each brings half of its own. */
	#scroll(event: HandEvent): HandAct {
		const before = this.#fingers.get(event.pointerId);
		if (!before) return 'ignore';
		this.#fingers.set(event.pointerId, { x: event.clientX, y: event.clientY });
		this.#moved = { x: (event.clientX - before.x) / 2, y: (event.clientY - before.y) / 2 };
		return 'scroll';
	}

	#lift(id: number): void {
		this.#fingers.delete(id);
		// The last finger of two still on the glass must not start to draw.
		if (this.#fingers.size === 0) this.#scrolling = false;
	}

	#drop(): void {
		this.#drawing = undefined;
		this.#points = [];
	}
}

const within = (pt: number, sizePt: number): number => Math.min(Math.max(pt, -OFF_SHEET_PT), sizePt + OFF_SHEET_PT);
