import type { MarkKind, MarkPlace } from '../marks/mark';
import { CHOOSING_KINDS, kindMask, placeMask, TARGET_PLACES, type MarkFact } from './markFacts';
import { MARK_KINDS, MARK_PLACES } from './vocabulary';

/**
 * How the choices of a contest were marked. A technique is a kind of mark at a kind of place: a check in
 * the target is one, a check after the name another. Filling neatly and scribbling are one.
 */
export interface TechniqueFacts {
	/** Number of marks by technique, where the kind is sure. */
	readonly sure: ReadonlyMap<number, number>;
	/** Marks whose technique a person must say. */
	readonly unsure: number;
}

/** Techniques of one mark's choice; an empty list where it has none that is sure. */
export function techniquesOf(choices: readonly { readonly marks: readonly MarkFact[] }[]): TechniqueFacts {
	const sure = new Map<number, number>();
	let unsure = 0;
	for (const { marks } of choices)
		for (const mark of marks) {
			if (!hasTechnique(mark)) continue;
			if (!mark.sure) unsure++;
			else sure.set(techniqueOf(mark), (sure.get(techniqueOf(mark)) ?? 0) + 1);
		}
	return { sure, unsure };
}

const PLACES_OF_CHOICE = placeMask(['in-target', 'touching-target', 'beside-target', 'on-name', 'after-name']);
const WRITING = kindMask(['writing']);
const DOT = kindMask(['dot']);

/** Marks with which a choice is made; a name on a line and a resting pen are no technique. */
export const hasTechnique = ({ kindBit, placeBit }: MarkFact): boolean =>
	(kindBit & CHOOSING_KINDS & ~WRITING) !== 0 &&
	(placeBit & PLACES_OF_CHOICE) !== 0 &&
	!(kindBit & DOT && !(placeBit & TARGET_PLACES));

export function techniqueOf({ kind, place }: MarkFact): number {
	const sameKind: MarkKind = kind === 'scribble' ? 'fill' : kind;
	const samePlace: MarkPlace = place === 'touching-target' ? 'in-target' : place;
	return MARK_KINDS.indexOf(sameKind) * MARK_PLACES.length + MARK_PLACES.indexOf(samePlace);
}
