import type { MistakeCodeId } from '$core/answers/mistakeCodes';
import type { Look } from './eventPractice';
import type { Moment } from './eventTally';

/** What a visit needs of the sheet that lies on the tablet. */
export interface VisitedSheet {
	readonly hasInk: boolean;
	finished: boolean;
	settled(): Promise<void>;
	look(): Look | undefined;
}

/**
 * One person at the tablet. Their first reading is tallied as `before`; their last sheet, when they end, as `after`.
 * Who never had a sheet read is in neither, so that both are of the same people.
 */
export class Visit {
	readonly #sheet: VisitedSheet;
	readonly #tally: (moment: Moment, codes: readonly MistakeCodeId[]) => void;
	#last: Look | undefined;
	#work: Promise<void> = Promise.resolve();
	#end: Promise<boolean> | undefined;

	constructor(sheet: VisitedSheet, tally: (moment: Moment, codes: readonly MistakeCodeId[]) => void) {
		this.#sheet = sheet;
		this.#tally = tally;
	}

	/** The person wants the sheet read. */
	read(): Promise<void> {
		this.#work = this.#work.then(async () => {
			await this.#sheet.settled();
			const look = this.#sheet.look();
			if (!look) return;
			if (!this.#last) this.#tally('before', look.codes);
			this.#last = look;
		});
		return this.#work;
	}

	/** The person is done or has gone. Whether their last sheet was clearly marked; a second call changes nothing. */
	end(): Promise<boolean> {
		this.#end ??= this.#work.then(() => this.#close());
		return this.#end;
	}

	async #close(): Promise<boolean> {
		if (!this.#last) return false;
		let last = this.#last;
		// A fresh sheet with nothing on it puts nothing right: the sheet before it is their last.
		if (this.#sheet.hasInk) {
			await this.#sheet.settled();
			this.#sheet.finished = true;
			last = this.#sheet.look() ?? last;
		}
		this.#tally('after', last.codes);
		return last.isClear;
	}
}
