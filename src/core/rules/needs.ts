import type { Node } from './compile';
import { CHOOSING_KINDS, kindMask, MADE_KINDS, OUTSIDE_PLACES, placeMask, TARGET_PLACES } from './markFacts';

/**
 * What a choice must hold for a condition to hold there, or to be left unsettled: a mark of one of these kinds, and
 * one at one of these places. A choice without is passed over untested, and most choices of a ballot are.
 */
export interface Needs {
	readonly kinds: number;
	readonly places: number;
}

/** A bit beside those of kinds and places: there is ink in the target, whatever it is. */
export const INKED_BIT = 1 << 20;

const ANY_BIT = -1;
const OVER_NAME = kindMask(['strike', 'scribble', 'cross']);
const ERASURE = kindMask(['erasure']);
const LINE = placeMask(['write-in']);

/** All of these must be there; none: any choice will do. */
export function needsOf({ op, parts, mark, words, from }: Node): readonly Needs[] {
	switch (op) {
		case 'all':
			return parts.flatMap(needsOf);
		case 'any':
			return needsOfAny(parts.map(needsOf));
		case 'mark':
			return [{ kinds: mark.kinds === 0 ? MADE_KINDS : mark.kinds, places: mark.places }];
		case 'erased':
			return [{ kinds: ERASURE, places: TARGET_PLACES }];
		case 'struck':
			return [{ kinds: OVER_NAME, places: ANY_BIT }];
		case 'supported':
			return [{ kinds: ANY_BIT, places: OUTSIDE_PLACES | TARGET_PLACES }];
		case 'written':
			return [{ kinds: ANY_BIT, places: LINE }];
		case 'technique':
			return [{ kinds: CHOOSING_KINDS, places: ANY_BIT }];
		case 'target':
			return from > 0 || (words.length > 0 && !words.includes('empty'))
				? [{ kinds: INKED_BIT, places: INKED_BIT }]
				: [];
		default:
			return [];
	}
}

/** One of each part's needs is enough to rule that part out; where no part can be ruled out, nothing is needed. */
function needsOfAny(parts: readonly (readonly Needs[])[]): readonly Needs[] {
	let kinds = 0;
	let places = 0;
	for (const [first] of parts) {
		if (!first) return [];
		kinds |= first.kinds;
		places |= first.places;
	}
	return [{ kinds, places }];
}

/** What a choice holds, as bits of kinds and of places. */
export interface Held {
	readonly kindBits: number;
	readonly placeBits: number;
}

export function mayHold(needs: readonly Needs[], { kindBits, placeBits }: Held): boolean {
	for (const { kinds, places } of needs) if ((kindBits & kinds) === 0 || (placeBits & places) === 0) return false;
	return true;
}
