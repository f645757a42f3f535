import { beforeNavigate, goto } from '$app/navigation';
import { update } from '$lib/pwa/update.svelte';
import type { Practice } from './practice.svelte';

/** Nothing takes the voter's ink without a yes. Made while a screen is set up; `practice` is the one now on screen. */
export class InkGuard {
	/** What waits for a yes because there is ink on the sheet. */
	waiting = $state.raw<(() => void) | undefined>();
	readonly #practice: () => Pick<Practice, 'hasInk'>;
	#isLeaving = false;

	constructor(practice: () => Pick<Practice, 'hasInk'>) {
		this.#practice = practice;

		// A new version must not come while there is ink: it would reload the page.
		$effect(() => {
			update.busy = practice().hasInk;
			return () => {
				update.busy = false;
			};
		});

		// Leaving takes the ink with it, so a link asks first. Closing the page does not: nothing of it is kept anyway.
		beforeNavigate(({ cancel, to, willUnload }) => {
			if (this.#isLeaving || willUnload || !to || !practice().hasInk) return;
			cancel();
			this.waiting = () => {
				this.#isLeaving = true;
				// eslint-disable-next-line svelte/no-navigation-without-resolve -- the address comes from a link that was resolved
				void goto(to.url);
			};
		});
	}

	/** Does it, after a question where it would cost the voter's ink. */
	whenFree(act: () => void): void {
		if (this.#practice().hasInk) this.waiting = act;
		else act();
	}

	/** The voter gives the ink away. */
	yes(): void {
		this.waiting?.();
		this.waiting = undefined;
	}

	/** The voter keeps it. */
	no(): void {
		this.waiting = undefined;
	}
}
