import type { SituationId } from '../advice/situation';
import type { MistakeCodeId } from './mistakeCodes';

/** The mistake that a situation found on a practice ballot is tallied as; where none is named it is no mistake. */
const CODES: Readonly<Partial<Record<SituationId, MistakeCodeId>>> = {
	crossover: 'crossover',
	crossOut: 'crossed-out',
	crossOutAlone: 'crossed-out',
	yesAndNo: 'yes-and-no',
	overvoteWriteIn: 'too-many',
	overvote: 'too-many',
	lightTooMany: 'too-many',
	writeInTooMany: 'too-many',
	outsideTooMany: 'too-many',
	touchesTwo: 'outside-target',
	writeInNoTarget: 'write-in-no-target',
	writeInNoName: 'write-in-no-name',
	light: 'faint-mark',
	faint: 'faint-mark',
	partial: 'partial-fill',
	join: 'old-arrow',
	wrongSide: 'wrong-side',
	ring: 'name-marked',
	underline: 'name-marked',
	beside: 'outside-target',
	dot: 'stray-dot',
	erased: 'erased',
	smudge: 'smeared',
	stain: 'stained',
	fold: 'folded',
	note: 'signed-ballot'
};

/** The mistake code of a situation, or undefined where it asks for no second look. */
export function codeOfSituation(situation: SituationId): MistakeCodeId | undefined {
	return CODES[situation];
}
