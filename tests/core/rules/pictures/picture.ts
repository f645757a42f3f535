import type { TargetShape } from '$core/election/election';
import type { Box } from '$core/geometry';
import type { PlaceableMark } from '$core/ink/placeMark';
import type { Stroke } from '$core/ink/stroke';
import type { ChoiceLayout } from '$core/layout/layout';
import type { TargetLevel } from '$core/marks/mark';
import type { Told } from '$core/rules/facts';
import type { Saying } from '$core/rules/vocabulary';
import type { Pen } from './pen';
import type { ContestName, SheetName } from './sheets';

/** The row of a role; throws where the contest has none. */
export type At = (role: string) => ChoiceLayout;

/** Handwriting in a picture, and what a person who reads it says it is. */
export interface Words {
	readonly box: Box;
	readonly says: Saying;
	/** Role of the printed name that is written. */
	readonly names?: string;
}

/** A situation drawn in ink: what a hand does in one contest, or on the whole sheet. */
export interface Situation {
	readonly meaning: string;
	readonly sheet?: SheetName;
	readonly contest?: ContestName;
	readonly shape?: TargetShape;
	/** Roles without which a contest cannot show it; elsewhere such a contest stays blank. */
	readonly needs: readonly string[];
	/** Strokes of the contest; `heading` is where its title is printed. */
	readonly draw: (pen: Pen, at: At, heading: Box) => readonly Stroke[];
	readonly words?: (at: At, heading: Box) => readonly Words[];
	/** Ink in the margin of the contest's page, with what it says. */
	readonly margin?: Words;
	readonly told?: Omit<Told, 'words'>;
	/** Contests that stay blank, or that are filled, otherwise than a normal voter would. */
	readonly blank?: readonly string[];
	readonly filled?: readonly string[];
	/** The mark of a voter who marks the other contests in another way than filling them. */
	readonly elsewhere?: PlaceableMark;
	/**
	 * What the reader should see in the contest: by role ("none" for what belongs to no choice), its marks as "kind place", in any order. Several that
	 * would all be a right name of the mark are parted by "|"; "+B" at the end: the same mark also touches B.
	 */
	readonly sees: Readonly<Record<string, readonly string[]>>;
	/** The reader is not sure of the kind of some mark: rules that turn on it refer. */
	readonly isUnsure?: true;
	/** What the machine should see in a target. */
	readonly levels?: Readonly<Record<string, TargetLevel>>;
	/** Between which shares of a target's inside the ink should cover, 0 to 1. */
	readonly fills?: Readonly<Record<string, readonly [from: number, to: number]>>;
}
