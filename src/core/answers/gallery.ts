import type { PlaceableMark } from '../ink/placeMark';
import type { Mishap, Tool } from '../ink/stroke';

/** The made-up contests that the pictures are drawn on. */
export const GALLERY_CONTESTS = ['pick-one', 'pick-two', 'measure'] as const;
export type GalleryContest = (typeof GALLERY_CONTESTS)[number];

/** A row of a made-up contest; a measure has only `a` (yes) and `b` (no). */
export type GalleryRow = 'a' | 'b' | 'c' | 'write-in';

export interface GalleryMark {
	readonly row: GalleryRow;
	readonly kind: PlaceableMark;
	/** What it is made with; a ballpoint where nothing is said. */
	readonly tool?: Tool;
}

/** A ballot as a voter may see it at home: marks on an example, never on a real person's name. */
export interface GalleryPicture {
	readonly id: string;
	/** Number of the question that it asks without words. */
	readonly question: number;
	readonly contest: GalleryContest;
	readonly marks: readonly GalleryMark[];
	readonly mishap?: Mishap['kind'];
	/** Handwriting beside the title. */
	readonly note?: true;
}

const fill = (row: GalleryRow, tool?: Tool): GalleryMark => ({ row, kind: 'fill', ...(tool ? { tool } : {}) });
const mark = (row: GalleryRow, kind: PlaceableMark): GalleryMark => ({ row, kind });
const one = (id: string, question: number, ...marks: readonly GalleryMark[]): GalleryPicture => ({
	id,
	question,
	contest: 'pick-one',
	marks
});

/** The pictures, alike ones beside each other. Ids are also the keys of their captions. */
export const GALLERY: readonly GalleryPicture[] = [
	one('filled', 7, fill('a')),
	one('partial', 7, mark('a', 'partial')),
	one('light', 6, mark('a', 'light')),
	one('pencil', 2, fill('a', 'pencil')),
	one('check', 8, mark('a', 'check')),
	one('cross', 8, mark('a', 'cross')),
	one('name-circled', 9, mark('a', 'circle-name')),
	one('name-underlined', 9, mark('a', 'underline-name')),
	one('beside', 10, mark('a', 'beside')),
	one('wrong-side', 13, mark('a', 'after-name')),
	one('old-arrow', 12, mark('a', 'join-arrow')),
	one('dot', 11, fill('a'), mark('b', 'dot')),
	one('two-marked', 25, fill('a'), fill('b')),
	one('crossed-out', 18, fill('a'), mark('a', 'cross-out'), fill('b')),
	one('crossed-out-alone', 17, fill('a'), mark('a', 'cross-out')),
	one('crossed-out-both', 26, fill('a'), mark('a', 'cross-out'), fill('b'), mark('b', 'cross-out')),
	one('erased', 22, fill('a'), mark('a', 'erase'), fill('b')),
	one('write-in', 61, fill('write-in'), mark('write-in', 'write-in')),
	one('write-in-no-target', 62, mark('write-in', 'write-in')),
	one('write-in-no-name', 61, fill('write-in')),
	one('write-in-and-name', 55, fill('a'), fill('write-in'), mark('write-in', 'write-in')),
	{ id: 'one-of-two', question: 52, contest: 'pick-two', marks: [fill('a')] },
	{ id: 'three-of-two', question: 53, contest: 'pick-two', marks: [fill('a'), fill('b'), fill('c')] },
	{ id: 'yes-and-no', question: 54, contest: 'measure', marks: [fill('a'), fill('b')] },
	one('blank', 51),
	{ ...one('stained', 38, fill('a')), mishap: 'stain' },
	{ ...one('smeared', 46, fill('a')), mishap: 'smudge' },
	{ ...one('folded', 41, fill('a')), mishap: 'fold' },
	{ ...one('bled-through', 4, fill('a', 'felt')), mishap: 'bleed' },
	{ ...one('note', 47, fill('a')), note: true }
];
