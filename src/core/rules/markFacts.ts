import type { Mark, MarkKind, MarkPlace } from '../marks/mark';
import type { Told } from './facts';
import type { MarkPattern } from './rule';
import { both, NO, UNSURE, YES, type Truth } from './truth';
import { MARK_KINDS, MARK_PLACES, type Saying } from './vocabulary';

/** Below this confidence a mark's kind is for a person to say. Our own choice: an even chance; no source sets one. */
export const SURE_CONFIDENCE = 0.5;

/** A mark as conditions ask about it: kind and place as one bit each, so that a list of kinds is one test. */
export interface MarkFact {
	readonly id: string;
	readonly kind: MarkKind;
	readonly place: MarkPlace;
	readonly kindBit: number;
	readonly placeBit: number;
	readonly sure: boolean;
	/** It takes in two choices or more; where it stands in a target, two targets or more. */
	readonly several: boolean;
	readonly handwriting: boolean;
	/** What a person said the handwriting is, or what it is taken for; undefined: nobody has said. */
	readonly says?: Saying;
	/** Whose printed name was written, as told. */
	readonly names?: string;
}

const bitOf = <T>(list: readonly T[], one: T): number => 1 << list.indexOf(one);
const maskOf = <T>(list: readonly T[], some: readonly T[]): number =>
	some.reduce((mask, one) => mask | bitOf(list, one), 0);

export const kindMask = (kinds: readonly MarkKind[]): number => maskOf(MARK_KINDS, kinds);
export const placeMask = (places: readonly MarkPlace[]): number => maskOf(MARK_PLACES, places);

/** What happens to a sheet, as against what a hand does on it. */
const ACCIDENTS = kindMask(['smudge', 'stain', 'fold', 'erasure']);

/** Every kind that a hand makes. */
export const MADE_KINDS = kindMask(MARK_KINDS) & ~ACCIDENTS;

/** Kinds that can stand for a choice. A line through a name speaks against it; by itself it is no vote. */
export const CHOOSING_KINDS = MADE_KINDS & ~kindMask(['strike']);

export const TARGET_PLACES = placeMask(['in-target', 'touching-target']);

/** Places at a choice's row outside its target. */
export const OUTSIDE_PLACES = placeMask(['beside-target', 'on-name', 'after-name']);

/** Kinds that embrace or underline whatever they stand at; the tail of a check mark only passes by. */
const EMBRACING = kindMask(['ring', 'underline', 'unsure']);

/** A dot outside every target is the pen resting: like a smudge it is no vote by itself. */
export function isPossibleVote(mark: Mark): boolean {
	const outside = (bitOf(MARK_PLACES, mark.place) & TARGET_PLACES) === 0;
	if (mark.kind === 'dot' && outside) return false;
	return (bitOf(MARK_KINDS, mark.kind) & CHOOSING_KINDS) !== 0;
}

/**
 * `inked`: keys (see `targetKey`) of the targets with ink inside. `roomy`: no more is marked in the contest than
 * allowed, so that writing on a write-in line is taken to be the name of somebody not yet named; whether that
 * person may be elected is left to people.
 */
export function encodeMark(
	mark: Mark,
	{ words }: Pick<Told, 'words'>,
	inked: ReadonlySet<string>,
	roomy: boolean
): MarkFact {
	const { id, kind, place, confidence, contest, alsoTouches = [] } = mark;
	const placeBit = bitOf(MARK_PLACES, place);
	const said = words?.get(id);
	// Who says what it says has seen that it is handwriting, over a printed name too.
	const handwriting = said !== undefined || kind === 'writing' || (place === 'write-in' && isLineInk(kind));
	const touched =
		placeBit & TARGET_PLACES ? alsoTouches.filter((choice) => inked.has(targetKey(contest, choice))) : alsoTouches;
	const says = said?.says ?? (handwriting && place === 'write-in' && roomy ? 'name' : undefined);
	return {
		id,
		kind,
		place,
		kindBit: bitOf(MARK_KINDS, kind),
		placeBit,
		sure: kind !== 'unsure' && confidence >= SURE_CONFIDENCE,
		several: touched.length > 0,
		handwriting,
		...(says === undefined ? {} : { says }),
		...(said?.choice === undefined ? {} : { names: said.choice })
	};
}

export const targetKey = (contest: string | undefined, choice: string): string => `${contest ?? ''} ${choice}`;

/** Ink on a write-in line is a name unless it is a dot, a line through it, or an accident. */
const isLineInk = (kind: MarkKind): boolean =>
	kind !== 'dot' && kind !== 'strike' && (bitOf(MARK_KINDS, kind) & ACCIDENTS) === 0;

/** A mark pattern made ready: its lists as bit masks. */
export interface MarkTest {
	/** 0: no kinds named, every made kind will do. */
	readonly kinds: number;
	readonly places: number;
	readonly says: readonly Saying[] | undefined;
	readonly touches: 'one' | 'several' | undefined;
}

const listOf = <T>(value: T | readonly T[] | undefined): readonly T[] | undefined =>
	value === undefined ? undefined : Array.isArray(value) ? (value as readonly T[]) : [value as T];

export function compileMark({ kind, place, says, touches }: MarkPattern): MarkTest {
	const kinds = listOf(kind);
	const places = listOf(place);
	return {
		kinds: kinds ? kindMask(kinds) : 0,
		places: places ? placeMask(places) : placeMask(MARK_PLACES),
		says: listOf(says),
		touches
	};
}

/** Whether a mark fits a pattern: not settled where its kind, its choice or its words are not. */
export function testMark(test: MarkTest, mark: MarkFact): Truth {
	if ((mark.placeBit & test.places) === 0) return NO;
	const kind = testKind(test.kinds, mark);
	if (kind === NO) return NO;
	return both(kind, both(testTouches(test.touches, mark), testSays(test.says, mark)));
}

export function testKind(kinds: number, { kindBit, sure, kind }: MarkFact): Truth {
	if (kinds === 0) return kindBit & MADE_KINDS ? YES : NO;
	if (sure || kind === 'unsure') return kindBit & kinds ? YES : kind === 'unsure' ? UNSURE : NO;
	return UNSURE;
}

/** One ring around two names stands for one of them, but a person must say for which. */
export function testTouches(touches: 'one' | 'several' | undefined, { several, kindBit, placeBit }: MarkFact): Truth {
	if (touches !== undefined) return (touches === 'several') === several ? YES : NO;
	return several && kindBit & EMBRACING && !(placeBit & TARGET_PLACES) ? UNSURE : YES;
}

export function testSays(says: readonly Saying[] | undefined, { handwriting, says: said }: MarkFact): Truth {
	if (says === undefined) return YES;
	if (!handwriting) return NO;
	if (said === undefined) return UNSURE;
	return says.includes(said) ? YES : NO;
}
