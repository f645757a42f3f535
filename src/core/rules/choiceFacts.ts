import type { ChoiceFacts, ContestFacts } from './facts';
import {
	kindMask,
	MADE_KINDS,
	OUTSIDE_PLACES,
	placeMask,
	TARGET_PLACES,
	testKind,
	testSays,
	testTouches,
	type MarkFact
} from './markFacts';
import { both, either, NO, truth, UNSURE, YES, type Truth } from './truth';

const STRIKE = kindMask(['strike']);
const OVER_NAME = kindMask(['scribble', 'cross']);
const ON_NAME = placeMask(['on-name']);

/**
 * Crossed out: a line through name or target, or an X or scribble over the name where the target holds
 * ink as well. Over the name of an empty target those two may be somebody's way to choose.
 */
export function isStruck({ marks, strikes, level }: ChoiceFacts): Truth {
	const hasInk = level !== 'empty' || marks.some(isInTarget);
	let result: Truth = strikes.some(({ sure }) => sure) ? YES : strikes.length > 0 ? UNSURE : NO;
	for (const mark of marks) {
		if (mark.handwriting) continue;
		const onName = (mark.placeBit & ON_NAME) !== 0;
		result = either(result, testKind(hasInk && onName ? STRIKE | OVER_NAME : STRIKE, mark));
	}
	return result;
}

const isInTarget = ({ kindBit, placeBit }: MarkFact): boolean =>
	(placeBit & TARGET_PLACES) !== 0 && (kindBit & MADE_KINDS & ~RING) !== 0;

const RING = kindMask(['ring']);
const SUPPORT = kindMask(['ring', 'underline', 'check', 'join']);

/** Marked in its target and once more in favour: ringed, underlined, ticked beside, or "this one" written by it. */
export function isSupported({ marks, level }: ChoiceFacts): Truth {
	if (level === 'empty' && !marks.some(isInTarget)) return NO;
	let result: Truth = NO;
	for (const mark of marks) {
		const outside = (mark.placeBit & OUTSIDE_PLACES) !== 0;
		const ringed = (mark.placeBit & TARGET_PLACES) !== 0;
		if (outside && mark.handwriting) result = either(result, testSays(['support', 'yes'], mark));
		else if (outside) result = either(result, both(testKind(SUPPORT, mark), testTouches(undefined, mark)));
		else if (ringed && marks.some((other) => other !== mark && isInTarget(other)))
			result = either(result, mark.sure ? testKind(RING, mark) : NO);
	}
	return result;
}

const LINE = placeMask(['write-in']);

/** Handwriting stands on its line. What it says is not asked. */
export const isWritten = ({ kind, marks }: ChoiceFacts): Truth =>
	truth(kind === 'write-in' && marks.some(({ handwriting, placeBit }) => handwriting && (placeBit & LINE) !== 0));

/** Its printed name is written on a write-in line of the contest, as a person has said. */
export function nameIsWritten(cell: ChoiceFacts, contest: ContestFacts | undefined): Truth {
	if (cell.kind === 'write-in') return NO;
	let result: Truth = NO;
	for (const { kind, marks } of contest?.choices ?? []) {
		if (kind !== 'write-in') continue;
		for (const { handwriting, placeBit, says, names } of marks) {
			if (!handwriting || (placeBit & LINE) === 0) continue;
			if (says === undefined) result = either(result, UNSURE);
			else if (says === 'printed-name')
				result = either(result, names === undefined ? UNSURE : truth(names === cell.id));
		}
	}
	return result;
}
