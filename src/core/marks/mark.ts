import type { Box } from '../geometry';

/** `join`: an arrow joined, or the old habit of joining one. `unsure` is an honest kind. */
export const MARK_KINDS = [
	'fill',
	'check',
	'cross',
	'stroke',
	'dot',
	'ring',
	'underline',
	'strike',
	'scribble',
	'join',
	'writing',
	'smudge',
	'erasure',
	'stain',
	'fold',
	'unsure'
] as const;
export type MarkKind = (typeof MARK_KINDS)[number];

export const MARK_PLACES = [
	'in-target',
	'touching-target',
	'beside-target',
	'on-name',
	'after-name',
	'write-in',
	'heading',
	'margin'
] as const;
export type MarkPlace = (typeof MARK_PLACES)[number];

/** Something on the page that was not printed. */
export interface Mark {
	/** "m1", "m2", …: in page order, top to bottom, unique over the ballot. */
	readonly id: string;
	readonly page: number;
	readonly kind: MarkKind;
	readonly place: MarkPlace;
	/** The contest and choice it belongs to, where there is one. */
	readonly contest?: string;
	readonly choice?: string;
	/** On a ranked contest, the rank of the target it is in. */
	readonly rank?: number;
	/** Other choices whose target or name the same mark also touches. */
	readonly alsoTouches?: readonly string[];
	readonly box: Box;
	/** 0 to 1: how sure the reader is of the kind. */
	readonly confidence: number;
	/** 0 to 1: how dark its ink is against the paper around it. */
	readonly darkness: number;
}

export type TargetLevel = 'dark' | 'unsure' | 'empty';

/** What was measured in one target, its printed outline left out. */
export interface TargetReading {
	readonly contest: string;
	readonly choice: string;
	readonly rank?: number;
	readonly page: number;
	/** Share of the target's inside that is ink, 0 to 1. */
	readonly fill: number;
	/** How dark that ink is against local paper white, 0 to 1; 0 where there is none. */
	readonly darkness: number;
	/** Made of the two and scaled to the target's size, 0 to 1; see `measureTarget`. */
	readonly score: number;
	/** The score split by the election's two thresholds. */
	readonly level: TargetLevel;
}

/** What was found on one page. */
export interface PageMarks {
	readonly page: number;
	readonly targets: readonly TargetReading[];
	readonly marks: readonly Mark[];
}
