import type { Lang } from '$lib/i18n/i18n';

/** One call: what the clerk has chosen so far. All of it goes when the next call begins, with a new one of these. */
export class Call {
	/** Ids of the choices at each question, in order. */
	path = $state.raw<readonly string[]>([]);
	/** Id of the answer taken from the search; empty where there is none. */
	picked = $state('');
	/** Language the answer is read aloud in, where it is not that of the page. */
	sayIn = $state<Lang>();
	/** Mistake code that the clerk gives the call; empty where the answer's own stands. */
	code = $state('');

	/** Whether there is a step to take back. */
	get isBegun(): boolean {
		return this.path.length > 0 || this.picked !== '';
	}

	choose(id: string): void {
		this.path = [...this.path, id];
	}

	pick(answer: string): void {
		this.picked = answer;
	}

	back(): void {
		if (this.picked !== '') this.picked = '';
		else this.path = this.path.slice(0, -1);
		this.code = '';
	}
}
