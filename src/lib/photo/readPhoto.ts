import type { GreyImage } from '$core/image';
import type { Layout, PrintSize } from '$core/layout/layout';
import type { PageMarks } from '$core/marks/mark';
import { numberMarks } from '$core/marks/numberMarks';
import type { PhotoSheets } from '$core/photo/photoSheets';
import type { PhotoRefusal } from '$core/photo/refusals';
import { readMarks, readPage } from '$core/read';
import type { BallotStatement, ContestReading } from '$core/reading/statement';
import type { SheetCode } from '$core/sheet/sheetCode';
import type { FileRefusal } from './decodePicture';

/** What is told while a photo is read, in this order. */
export const STEPS = ['open', 'find', 'flatten', 'read'] as const;
export type Step = (typeof STEPS)[number];

/** Pages of one ballot that were read before: the next photo adds to them. */
export interface SeenBallot {
	readonly election: string;
	readonly style: string;
	readonly languages: readonly string[];
	readonly printSize: PrintSize;
	readonly version: string;
	readonly pages: readonly PageMarks[];
}

/** A photo that was read, with all that came before of the same ballot. */
export interface ReadBallot {
	readonly seen: SeenBallot;
	/** Page of the sheet in this photo, and the flat grey page that was made of it. */
	readonly page: number;
	readonly image: GreyImage;
	readonly layout: Layout;
	readonly contests: readonly ContestReading[];
	readonly ballot: BallotStatement;
}

/** `other-ballot`: our sheet, but not of the ballot whose other page was read before. */
export type Refusal = PhotoRefusal | FileRefusal | 'other-ballot';

export interface RefusedPhoto {
	readonly refused: Refusal;
	/** Where its code was read: what it says. */
	readonly code?: SheetCode;
}

/** From a grey photo to the reading of all pages seen so far. `onstep` is called as each part begins. */
export function readPhoto(
	photo: GreyImage,
	sheets: PhotoSheets,
	before: SeenBallot | undefined,
	onstep: (step: Step) => void = () => undefined
): ReadBallot | RefusedPhoto {
	onstep('find');
	const flat = sheets.flatten(photo, () => {
		onstep('flatten');
	});
	if ('refused' in flat) return { refused: flat.refused, ...(flat.code ? { code: flat.code } : {}) };
	const { code, page: image } = flat;
	if (before && nameOf(before) !== nameOf(code)) return { refused: 'other-ballot', code };
	onstep('read');
	const open = sheets.openOf(code);
	const others = before?.pages.filter(({ page }) => page !== code.page) ?? [];
	const pages = numberMarks([...others, readPage(image, code.page, open)]);
	const { contests, ballot } = readMarks(pages, open);
	const { election, style, languages, printSize, version } = code;
	return {
		seen: { election, style, languages, printSize, version, pages },
		page: code.page,
		image,
		layout: open.layout,
		// Traces are made when they are first looked at; a message to the page holds only what is there.
		contests: contests.map((reading) => ({
			...reading,
			people: { ...reading.people, trace: [...reading.people.trace] }
		})),
		ballot: { ...ballot, trace: [...ballot.trace] }
	};
}

/** One name for one printed ballot. */
const nameOf = ({ election, style, languages, printSize, version }: Omit<SeenBallot, 'pages'>): string =>
	[election, style, printSize, ...languages, version].join(' ');
