import type { Rulebook } from '$core/rules/rule';
import { loadRulebooks } from './load';

/** All rulebooks as a page shows them: not there yet, there, or why they cannot be had. */
export class Shelf {
	all = $state.raw<readonly Rulebook[]>();
	/** Why the last attempt failed; empty where it did not. */
	failure = $state('');

	async load(): Promise<void> {
		try {
			this.all = await loadRulebooks();
			this.failure = '';
		} catch (error) {
			this.failure = error instanceof Error ? error.message : String(error);
		}
	}
}
