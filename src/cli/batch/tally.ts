import type { CodeCount } from '../../core/answers/codesOfReading';
import { MISTAKE_CODES } from '../../core/answers/mistakeCodes';
import { LEAST_SHOWN, shownCounts } from '../../core/answers/shownCounts';
import { HELD_BACK } from '../../core/answers/tallyFile';

/** A line of `read`, as far as a batch looks into it. */
export interface ReadLine {
	readonly file?: unknown;
	readonly refused?: unknown;
	readonly codes?: unknown;
	readonly contests?: unknown;
	/** Of a NIST report, which names the file nowhere else. */
	readonly CVR?: unknown;
	readonly summary?: unknown;
}

/** On how many sheets of a batch each mistake was found. */
export class CodeTally {
	#sheets = 0;
	#refused = 0;
	readonly #sheetsWith: Record<string, number> = {};

	add({ refused, codes }: ReadLine): void {
		if (refused !== undefined) this.#refused += 1;
		else this.#sheets += 1;
		for (const { code } of Array.isArray(codes) ? (codes as readonly CodeCount[]) : [])
			this.#sheetsWith[code] = (this.#sheetsWith[code] ?? 0) + 1;
	}

	/** To be given out: a mistake on fewer than 10 sheets is held back, as in every tally of the project. */
	summary() {
		const shown = shownCounts(
			this.#sheetsWith,
			MISTAKE_CODES.map(({ id }) => id)
		);
		return {
			sheets: this.#sheets,
			refused: this.#refused,
			suppressedUnder: LEAST_SHOWN,
			codes: shown.map(({ cell, count }) => ({ code: cell, sheets: count ?? HELD_BACK }))
		};
	}
}
