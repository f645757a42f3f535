import type { Box } from '$core/geometry';
import type { PageLayout } from '$core/layout/layout';
import { contestView, slid, zoomed } from '$lib/paper/view';
import type { Practice } from '$lib/state/practice.svelte';

/** Paper's distance from the sides of a phone, in CSS pixels, as in the screen's style. */
const ASIDE_PX = 12;

/** Where the paper is near: its page, the contest whole, and close enough for a fingertip. */
interface Near {
	readonly page: PageLayout;
	readonly whole: Box;
	readonly close: Box;
	/** What is shown of it. */
	readonly view: Box;
}

/** Phone: the part of the paper on screen, which is the voter's contest; closer to it, what fits beside its targets. */
export class PhoneView {
	zoomedIn = $state(false);
	/** How far the closer view is moved from the targets, in points. */
	slidPt = $state(0);
	/** Width of what the paper lies on, in CSS pixels. */
	tablePx = $state(0);
	readonly #practice: () => Practice;
	readonly #paperPx = $derived(this.tablePx - 2 * ASIDE_PX);

	readonly near = $derived.by((): Near | undefined => {
		const { layout, contest } = this.#practice();
		const page = layout.pages.find(({ contests }) => contests.some((c) => c.contest === contest));
		if (!page) return undefined;
		const whole = contestView(page, contest);
		const targets = page.choices.filter((c) => c.contest === contest).map(({ target }) => target);
		const close = zoomed(whole, this.#paperPx, targets, layout.side);
		return { page, whole, close, view: this.zoomedIn ? slid(close, whole, this.slidPt) : whole };
	});

	/** `practice` is the one now on screen. */
	constructor(practice: () => Practice) {
		this.#practice = practice;
	}

	/** Nearer to the paper, or back. */
	zoom(): void {
		this.zoomedIn = !this.zoomedIn;
		this.slidPt = 0;
	}

	/** Moves the closer view along the contest. */
	slide(dxPt: number): void {
		if (this.near) this.slidPt = slid({ ...this.near.view }, this.near.whole, dxPt).x - this.near.close.x;
	}

	/** Two fingers took the closer paper along. */
	drag(dxPx: number): void {
		if (this.near && this.zoomedIn) this.slide(-dxPx * (this.near.view.width / this.#paperPx));
	}
}
