import type { Election } from '$core/election/election';
import type { Mishap, PageInk, Stroke } from '$core/ink/stroke';
import type { PackedOutlines } from '$core/layout/font/glyph';
import type { Layout } from '$core/layout/layout';
import type { Mark, TargetReading } from '$core/marks/mark';
import type { BallotStatement, ContestReading, TraceStep } from '$core/reading/statement';
import type { Rulebook } from '$core/rules/rule';

/** What the page asks of the reading worker. Every question has a number; the answer, where there is one, carries it back. */
export type Question =
	| {
			readonly kind: 'open';
			readonly number: number;
			readonly election: Election;
			readonly layout: Layout;
			readonly rulebook: Rulebook;
			/** The bundled font, for drawing the printed page. */
			readonly outlines: PackedOutlines;
	  }
	| {
			readonly kind: 'add';
			readonly number: number;
			readonly page: number;
			readonly strokes: readonly Stroke[];
			readonly mishaps: readonly Mishap[];
	  }
	/** What a hand is drawing now. It has no answer. */
	| { readonly kind: 'foresee'; readonly number: number; readonly page: number; readonly strokes: readonly Stroke[] }
	| { readonly kind: 'set'; readonly number: number; readonly pages: readonly PageInk[] }
	| { readonly kind: 'trace'; readonly number: number; readonly contest: string }
	| { readonly kind: 'picture'; readonly number: number; readonly page: number; readonly window?: PictureWindow };

/** A part of a page in points. */
export interface PictureWindow {
	readonly x: number;
	readonly y: number;
	readonly width: number;
	readonly height: number;
}

/**
 * Readings that changed since the last answer, by contest. Traces are left out (empty): they are long, and few voters
 * open one; `trace` asks for a contest's.
 */
export interface Reading {
	readonly contests: readonly ContestReading[];
	readonly ballot: BallotStatement;
	/** Milliseconds of work in the worker, for the benchmark in the browser. */
	readonly workMs: number;
}

/**
 * All marks and targets of the ballot, and the readings of contests that changed besides the one that was marked. Comes by
 * itself a moment after a reading: the note of the marked contest is painted first.
 */
export interface Found {
	readonly contests: readonly ContestReading[];
	readonly marks: readonly Mark[];
	readonly targets: readonly TargetReading[];
}

export type Answer =
	| { readonly kind: 'read'; readonly number: number; readonly reading: Reading }
	| { readonly kind: 'found'; readonly found: Found }
	| { readonly kind: 'trace'; readonly number: number; readonly trace: readonly TraceStep[] }
	| {
			readonly kind: 'picture';
			readonly number: number;
			readonly widthPx: number;
			readonly heightPx: number;
			readonly grey: Uint8Array;
	  }
	| { readonly kind: 'failed'; readonly number: number; readonly message: string };
