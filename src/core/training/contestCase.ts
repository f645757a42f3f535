import type { PlaceableMark } from '../ink/placeMark';
import type { Tool } from '../ink/stroke';
import type { Saying } from '../rules/vocabulary';

/** Marks of a case that no voter places by key: a slip of the pen, a mark between two rows, words beside a name. */
export const CASE_ONLY_MARKS = ['stray', 'between', 'note'] as const;
export type CaseMarkKind = PlaceableMark | (typeof CASE_ONLY_MARKS)[number];

/** One mark of a case, in words. Another seed is another hand. */
export interface CaseMark {
	readonly choice: string;
	readonly kind: CaseMarkKind;
	readonly tool: Tool;
	readonly seed: number;
	/** Only this share of the pen's way is drawn, from its beginning: 0 to 1. Left out: all of it. */
	readonly share?: number;
	/** Moved from where it is meant, in points. */
	readonly shiftPt?: readonly [x: number, y: number];
}

/** What a person has said that the handwriting at a choice is; of a printed name also whose. */
export interface CaseSaying {
	readonly choice: string;
	readonly says: Saying;
	readonly names?: string;
}

/** One contest as a review table gets it: whose it is nobody knows, and what it comes to stands nowhere in it. */
export interface ContestCase {
	/** The same in every language, and the same every time. */
	readonly id: string;
	readonly contest: string;
	/** In the order in which they were made. */
	readonly marks: readonly CaseMark[];
	/** Handwriting is never recognised: where nobody says what it is, it cannot be read. */
	readonly says: readonly CaseSaying[];
}
