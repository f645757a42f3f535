/**
 * Why a photo is not read. A closed list: the screens and the command line have words for each, by these ids, in the
 * section `photo` of the locale files.
 *
 * - `not-our-sheet`: no code of ours, or not what that code's sheet looks like. Real ballots are never read.
 * - `code-unreadable`: a code is there, but too small or too blurred to be read.
 * - `other-election`, `other-layout`: our sheet, of another election, or printed from another version of this one's.
 * - `too-far`, `too-steep`, `too-blurred`, `too-dark`: the photo is outside what can be read safely.
 * - `corner-covered`: not all four corner marks are to be seen.
 * - `not-flat`: the paper is bent so much that the print cannot be laid on it.
 */
export const PHOTO_REFUSALS = [
	'not-our-sheet',
	'code-unreadable',
	'other-election',
	'other-layout',
	'too-far',
	'too-steep',
	'too-blurred',
	'too-dark',
	'corner-covered',
	'not-flat'
] as const;
export type PhotoRefusal = (typeof PHOTO_REFUSALS)[number];
