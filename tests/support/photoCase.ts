import jpeg from 'jpeg-js';
import { decodeCode } from '../../src/codes/decodeCode';
import { encodeCode } from '../../src/codes/encodeCode';
import { county } from '../../src/core/election/demo';
import type { GreyImage } from '../../src/core/image';
import { placeMark, type PlaceableMark } from '../../src/core/ink/placeMark';
import type { Stroke, Tool } from '../../src/core/ink/stroke';
import { layOut } from '../../src/core/layout/layOutBallot';
import { findMarks } from '../../src/core/marks/findMarks';
import type { PageMarks } from '../../src/core/marks/mark';
import { inkPage } from '../../src/core/page/inkPage';
import type { PhotoContext, PhotoSheet } from '../../src/core/photo/flattenPhoto';
import { pyramidOf } from '../../src/core/photo/shrink';
import { randomFrom } from '../../src/core/random';
import { layoutVersion } from '../../src/core/sheet/layoutVersion';
import { printSheet } from '../../src/core/sheet/printSheet';
import { wordsOf } from '../../src/cli/files';
import { photograph, shotOf, type Shot } from './camera';
import { finePrint, withInk } from './finePrint';
import { humanMark, type HumanStrokes } from './humanStrokes';

/** How voters mark: mostly as asked, some with the other marks that people make. */
const KINDS: readonly (readonly [PlaceableMark, number])[] = [
	['fill', 10],
	['check', 3],
	['cross', 3],
	['partial', 2],
	['light', 2],
	['dot', 1],
	['ring', 1],
	['circle-name', 1],
	['cross-out', 1],
	['write-in', 1]
];
const TOOLS: readonly Tool[] = ['ballpoint', 'ballpoint', 'pencil', 'felt'];

/** A target that somebody began to fill: how much of it differs from voter to voter. */
const PARTIAL = { least: 0.15, more: 0.75 };

/** Of the choices of a page, this share gets a mark. */
const MARKED = 0.45;

export const layout = layOut(county, county.styles[0]!.id, wordsOf(county.languages), ['en']);

const sheets = layout.pages.map(({ page }): PhotoSheet & { readonly fine: GreyImage } => ({
	version: layoutVersion(layout),
	prints: pyramidOf(printSheet(layout, page, encodeCode), 200),
	fine: finePrint(layout, page, encodeCode)
}));

/** Photos of the demo county's first style are read with this. */
export const context: PhotoContext = {
	election: county.id,
	sheetOf: ({ style, page }) => (style === layout.style ? sheets[page - 1] : undefined),
	decode: decodeCode
};

/** A sheet somebody marked: as it lies in front of a scanner, and as a printer and a pen left it. */
export interface MarkedSheet {
	readonly page: number;
	readonly flat: GreyImage;
	readonly paper: GreyImage;
}

/** Of the marks of a sheet, this share is drawn by people, where there are any such. */
const HUMAN = 0.5;

/** The same seed gives the same marks. `human`: marks that people drew, for half of them. */
export function markedSheet(seed: number, human?: HumanStrokes): MarkedSheet {
	const random = randomFrom(seed * 31 + 5);
	const page = 1 + (seed % layout.pages.length);
	const { prints, fine } = sheets[page - 1]!;
	const { choices } = layout.pages[page - 1]!;
	const tool = TOOLS[Math.floor(random() * TOOLS.length)]!;
	const strokes: Stroke[] = choices.flatMap((choice, index) => {
		if (random() > MARKED) return [];
		if (human && random() < HUMAN) return humanMark(human, choice, tool, random);
		const kind = kindAt(random());
		if (kind === 'write-in' && !choice.writeIn) return [];
		const options = { tool, shape: layout.shape, side: layout.side, seed: seed * 100 + index };
		if (kind === 'partial')
			return stoppedAt(PARTIAL.least + PARTIAL.more * random(), placeMark('fill', choice, options));
		return placeMark(kind, choice, options);
	});
	const anchors = choices.map(({ target }) => target);
	const flat = inkPage(prints[0]!, { page, strokes }, anchors, undefined, { seed });
	return { page, flat, paper: withInk(fine, flat, prints[0]!) };
}

/** The first strokes of a mark, up to this share of its points. */
function stoppedAt(share: number, strokes: readonly Stroke[]): Stroke[] {
	let left = Math.ceil(share * strokes.reduce((sum, { points }) => sum + points.length, 0));
	return strokes.flatMap((stroke) => {
		const points = stroke.points.slice(0, Math.max(0, left));
		left -= stroke.points.length;
		return points.length > 0 ? [{ ...stroke, points }] : [];
	});
}

function kindAt(share: number): PlaceableMark {
	let left = share * KINDS.reduce((sum, [, weight]) => sum + weight, 0);
	for (const [kind, weight] of KINDS) {
		left -= weight;
		if (left < 0) return kind;
	}
	return 'fill';
}

/** What the reader finds on a page of the sheet, at 200 dpi. */
export function readFlat(image: GreyImage, page: number): PageMarks {
	return findMarks(image, sheets[page - 1]!.prints[0]!, layout, page, { thresholds: county.thresholds });
}

/** A photo of a sheet, saved as a JPEG of the given quality and opened again. */
export function shoot({ paper }: MarkedSheet, shot: Shot, quality?: number): GreyImage {
	const photo = photograph(paper, shot);
	return quality === undefined ? photo : throughJpeg(photo, quality);
}

function throughJpeg({ width, height, data }: GreyImage, quality: number): GreyImage {
	const colours = new Uint8Array(4 * data.length);
	data.forEach((grey, i) => colours.fill(grey, 4 * i, 4 * i + 3));
	const file = jpeg.encode({ width, height, data: colours }, quality);
	const opened = jpeg.decode(file.data, { useTArray: true, formatAsRGBA: true, maxMemoryUsageInMB: 1024 });
	return { width, height, data: Uint8Array.from({ length: data.length }, (_, i) => opened.data[4 * i + 1]!) };
}

/** A photo of 12.0 megapixels, for what is timed. The sheet lies crosswise and fills the picture. */
export const largePhoto = (sheet: MarkedSheet): GreyImage =>
	shoot(sheet, { ...shotOf(7), turn: 90, tilt: 8, dpi: 400, blur: 0.8, largest: [4140, 3106] });
