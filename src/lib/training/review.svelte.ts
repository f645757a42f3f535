import type { Decision } from '$core/training/decision';
import type { DecidedCase, Person } from '$core/training/reviewRecord';

/** `two`: B takes the same cases after A on this device. `file`: A's decisions come from a file, B decides here. */
export const REVIEW_MODES = ['one', 'two', 'file'] as const;
export type ReviewMode = (typeof REVIEW_MODES)[number];

export interface ReviewSetup {
	readonly mode: ReviewMode;
	/** Id of the rulebook. */
	readonly rulebook: string;
	/** Ids, in the order in which they are decided. */
	readonly cases: readonly string[];
	/** A's decisions, where they come from a file. */
	readonly first?: readonly DecidedCase[];
}

/** One round at the review table, for one person or two. In memory only: it is gone with the page. */
export class Review {
	readonly setup: ReviewSetup;
	person = $state<Person>('A');
	/** `deciding`: a case lies there. `shown`: it is decided and the rule is shown. `handover`: it is B's turn. */
	phase = $state<'deciding' | 'shown' | 'handover' | 'finished'>('deciding');
	#decisions = $state.raw<Readonly<Record<Person, readonly DecidedCase[]>>>({ A: [], B: [] });

	/** Throws a RangeError without cases, and in mode `file` without a decision of A on every one of them. */
	constructor(setup: ReviewSetup) {
		const { cases, mode, first = [] } = setup;
		if (cases.length === 0) throw new RangeError('Review: expected at least one case, got none');
		if (mode === 'file' && cases.some((id) => !first.some((one) => one.case === id)))
			throw new RangeError(`Review: expected a first decision on ${cases.length} cases, got ${first.length}`);
		this.setup = setup;
		if (mode === 'file') {
			this.#decisions = { A: first, B: [] };
			this.person = 'B';
		}
	}

	/** From 0: the case that lies there, decided or not. */
	get at(): number {
		const done = this.#decisions[this.person].length;
		return this.phase === 'deciding' ? done : Math.max(0, done - 1);
	}

	get current(): string {
		return this.setup.cases[this.at] ?? '';
	}

	/** Whether there are two, so that a letter says who is meant. */
	get isNamed(): boolean {
		return this.setup.mode !== 'one' || this.person === 'B';
	}

	get isLast(): boolean {
		return this.at === this.setup.cases.length - 1;
	}

	decisionsOf(person: Person): readonly DecidedCase[] {
		return this.#decisions[person];
	}

	/** Those who have decided every case. */
	get persons(): readonly Person[] {
		return (['A', 'B'] as const).filter((one) => this.#decisions[one].length === this.setup.cases.length);
	}

	/** A decision on the case that lies there. Does nothing while none waits for one. */
	decide(decision: Decision): void {
		if (this.phase !== 'deciding') return;
		const own = [...this.#decisions[this.person], { case: this.current, decision }];
		this.#decisions = { ...this.#decisions, [this.person]: own };
		this.phase = 'shown';
	}

	/** The next case; after the last one the other person's turn, or the end. Does nothing before a decision. */
	next(): void {
		if (this.phase !== 'shown') return;
		if (this.#decisions[this.person].length < this.setup.cases.length) this.phase = 'deciding';
		else this.phase = this.setup.mode === 'two' && this.person === 'A' ? 'handover' : 'finished';
	}

	/** B sits down to the same cases: after A has handed over, or when A's round for one person has ended. */
	startSecond(): void {
		if (this.person === 'B' || (this.phase !== 'handover' && this.phase !== 'finished')) return;
		this.person = 'B';
		this.phase = 'deciding';
	}
}
