import { SITUATIONS, type SituationId } from '../advice/situation';
import type { ContestReading } from '../reading/statement';
import { codeOfSituation } from './codeOfSituation';
import { MISTAKE_CODES, type MistakeCodeId } from './mistakeCodes';

/** In how many contests of a sheet a mistake was found. It names no contest and no choice. */
export interface CodeCount {
	readonly code: MistakeCodeId;
	readonly count: number;
}

/** The mistakes that advice was given on, in the order of the one list of codes. */
export function codesOfReading(contests: readonly Pick<ContestReading, 'advice'>[]): readonly CodeCount[] {
	const found = contests.map(({ advice }) => new Set(advice.map(({ key }) => codeOf(key))));
	return MISTAKE_CODES.flatMap(({ id }) => {
		const count = found.filter((codes) => codes.has(id)).length;
		return count > 0 ? [{ code: id, count }] : [];
	});
}

/** A key of advice is its situation's id, in some with the office's method behind a dot. */
function codeOf(key: string): MistakeCodeId | undefined {
	const [id] = key.split('.');
	const situation = SITUATIONS.find((known): known is SituationId => known === id);
	return situation && codeOfSituation(situation);
}
