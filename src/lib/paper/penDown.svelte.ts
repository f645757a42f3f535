import type { Attachment } from 'svelte/attachments';
import { AFTER_NOTE_MS } from '$lib/state/afterNote';

/** Whether a pen, finger or mouse is down anywhere in the window, and until its note is there. */
export class PenDown {
	isDown = $state(false);
	#waiting: ReturnType<typeof setTimeout> | undefined;

	/** Watches the window for as long as an element is there. */
	readonly watch: Attachment = () => {
		const listeners = { pointerdown: this.#down, pointerup: this.#up, pointercancel: this.#up };
		// Before the paper's own listeners: they tell where the voter is.
		for (const [name, listener] of Object.entries(listeners))
			window.addEventListener(name, listener, { capture: true, passive: true });
		return () => {
			clearTimeout(this.#waiting);
			for (const [name, listener] of Object.entries(listeners))
				window.removeEventListener(name, listener, { capture: true });
		};
	};

	readonly #down = (): void => {
		clearTimeout(this.#waiting);
		this.isDown = true;
	};

	readonly #up = (): void => {
		clearTimeout(this.#waiting);
		this.#waiting = setTimeout(() => (this.isDown = false), AFTER_NOTE_MS);
	};
}
