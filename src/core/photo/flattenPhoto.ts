import type { Point } from '../geometry';
import { PAGE_DPI, PX_PER_PT, type GreyImage } from '../image';
import { parseSheetCode, type SheetCode } from '../sheet/sheetCode';
import { CODE, codeCorners } from '../sheet/signs';
import { alignPrint } from './alignPrint';
import { lightest } from './blur';
import { blurMapOf } from './blurMap';
import { steepnessOf } from './edgeBlur';
import { findSigns } from './findSigns';
import { findCode } from './findCode';
import { findFocus } from './focus';
import type { DecodeCode, FoundCode } from './foundCode';
import { greyOver } from './greyOver';
import { homographyOf, type Homography } from './homography';
import { liftInk } from './liftInk';
import { rectify } from './pageMap';
import type { PhotoRefusal } from './refusals';
import { pyramidOf } from './shrink';
import { dpiAt, slantAt } from './viewAt';

/** A printed page to compare photos with. */
export interface PhotoSheet {
	/** The layout's version as its code says it. */
	readonly version: string;
	/** The printed sheet at 200 dpi and its halves; see `pyramidOf`. */
	readonly prints: readonly GreyImage[];
}

export interface PhotoContext {
	/** Id of the election whose sheets are read. */
	readonly election: string;
	/** The sheet of this election that a code names; undefined where there is none. */
	readonly sheetOf: (code: SheetCode) => PhotoSheet | undefined;
	readonly decode: DecodeCode;
}

/** How good a photo is; what stands outside its limit refuses it. */
export interface PhotoQuality {
	/** Pixels of the photo to an inch of the sheet, where they are fewest. */
	readonly dpi: number;
	/** Angle from straight above, in degrees, as the sheet's middle looks. */
	readonly slant: number;
	/** Standard deviation of the blur, in pixels of a 200 dpi page. */
	readonly blurPx: number;
	/** Share of the print's contrast that is left. */
	readonly contrast: number;
	/** Grey of most of the paper in the photo. */
	readonly light: number;
	/** How far parts of the print are from where they should be: middle and 95th of a hundred, in points. */
	readonly residualPt: number;
	readonly residual95Pt: number;
	/** Share of the parts of the print that were found again. */
	readonly seen: number;
}

export type Flattened =
	| { readonly code: SheetCode; readonly page: GreyImage; readonly quality: PhotoQuality }
	| { readonly refused: PhotoRefusal; readonly code?: SheetCode; readonly quality?: Partial<PhotoQuality> };

/**
 * Where a photo stops being read. The limits it is made for are 150 dpi, 40 degrees and a blur of 1.5; these are a little
 * beyond, where readings still held. Found by trial with `tests/bench/photos.ts`.
 */
export const PHOTO_LIMITS = {
	leastDpi: 120,
	mostSlant: 52,
	mostBlurPx: 2.1,
	leastContrast: 0.5,
	leastLight: 45,
	mostResidual95Pt: 0.7,
	leastSeen: 0.6
} as const;

/** Most of a page is paper: this share of it is as light as most of the paper, or darker. */
const PAPER_SHARE = 0.6;

/** Where no code was read, the light is that of the lightest parts of it, or of the whole photo. */
const LIGHT_SHARE = 0.95;

/** A photo whose lightest parts are darker than this has no light to read by. */
const UNLIT = 64;

/**
 * The longer side of the picture whose edges are looked at where no code was read, at most, and how steep they are in a photo
 * that is not too blurred for one. Found by trial: within the limits it is 0.86 and more, with a blur of 3 at most 0.7.
 */
const STEEPNESS_PX = 2300;
const LEAST_STEEPNESS = 0.75;

/** The shorter side of the smallest picture that the search for corner marks uses, in pixels. */
const LEAST_LEVEL_PX = 200;

/**
 * From a photo, grey and of any size, to the grey page at 200 dpi that a scanner would give, or the reason why not. Looks
 * for the code, then the corner marks, then lays the photo on the print part by part, and takes blur, light and flare off.
 */
export function flattenPhoto(photo: GreyImage, { election, sheetOf, decode }: PhotoContext): Flattened {
	const levels = pyramidOf(photo, LEAST_LEVEL_PX);
	const found = findCode(photo, decode, levels);
	if (found?.text === undefined) return { refused: whyUnread(photo, levels, found) };
	const code = parseSheetCode(found.text);
	if (!code) return { refused: 'not-our-sheet' };
	if (code.election !== election) return { refused: 'other-election', code };
	const sheet = sheetOf(code);
	if (sheet?.version !== code.version) return { refused: 'other-layout', code };
	const refuse = (refused: PhotoRefusal, quality?: Partial<PhotoQuality>): Flattened => ({
		refused,
		code,
		...(quality ? { quality } : {})
	});
	const { prints } = sheet;
	const [print] = prints;
	if (!print) throw new RangeError('flattenPhoto: expected the print of the sheet, got none');

	const near = viewOfCode(found);
	if (!near) return refuse('not-our-sheet');
	const signs = findSigns(levels, prints, found.corners);
	const view = 'signs' in signs ? signs.signs.view : near;
	const [width, height] = [print.width, print.height];
	const places =
		'signs' in signs
			? [
					[0, 0],
					[width, 0],
					[0, height],
					[width, height]
				]
			: [[0.9 * width, 40]];
	const dpi = Math.min(...places.map(([x, y]) => dpiAt(view, x ?? 0, y ?? 0)));
	const slant = 'signs' in signs ? slantAt(view, width / 2, height / 2) : slantAt(view, 0.9 * width, 40);
	if (slant > PHOTO_LIMITS.mostSlant) return refuse('too-steep', { dpi, slant });
	if (dpi < PHOTO_LIMITS.leastDpi) return refuse('too-far', { dpi, slant });
	if (!('signs' in signs)) {
		const isDark = greyOver(partAround(photo, found.corners), LIGHT_SHARE) < UNLIT;
		return refuse(isDark ? 'too-dark' : 'corner-covered', { dpi, slant });
	}

	const { map, residualPt, residual95Pt, seen } = alignPrint(levels, prints, view);
	const picture = rectify(levels, map, 1);
	const focus = findFocus(picture, print, lightest(print), map);
	const { sigmaInPhoto, contrast } = focus;
	const sigmaPx = (sigmaInPhoto * PAGE_DPI) / dpi;
	const quality = {
		dpi,
		slant,
		blurPx: sigmaPx,
		contrast,
		light: greyOver(picture, PAPER_SHARE),
		residualPt,
		residual95Pt,
		seen
	};
	if (quality.light < PHOTO_LIMITS.leastLight) return refuse('too-dark', quality);
	// Of what is not there, neither blur nor contrast says anything.
	if (seen < PHOTO_LIMITS.leastSeen) return refuse('not-our-sheet', quality);
	if (contrast < PHOTO_LIMITS.leastContrast) return refuse('too-dark', quality);
	if (sigmaPx > PHOTO_LIMITS.mostBlurPx) return refuse('too-blurred', quality);
	if (residual95Pt > PHOTO_LIMITS.mostResidual95Pt) return refuse('not-flat', quality);
	return { code, page: liftInk(picture, print, blurMapOf(map, sigmaInPhoto), focus), quality };
}

/** Why there is no text of a code: what is plainly wrong with the photo, or that there is no code to be seen. */
function whyUnread(photo: GreyImage, levels: readonly GreyImage[], found: FoundCode | undefined): PhotoRefusal {
	const around = found ? partAround(photo, found.corners) : levels.at(-1);
	if (around && greyOver(around, LIGHT_SHARE) < UNLIT) return 'too-dark';
	const looked = levels.find(({ width, height }) => Math.max(width, height) < STEEPNESS_PX);
	const steepness = looked && steepnessOf(looked);
	if (steepness !== undefined && steepness < LEAST_STEEPNESS) return 'too-blurred';
	if (!found) return 'not-our-sheet';
	const [a, b, , d] = found.corners as readonly [Point, Point, Point, Point];
	const sidePx = Math.sqrt(Math.abs((b.x - a.x) * (d.y - a.y) - (b.y - a.y) * (d.x - a.x)));
	return (72 * sidePx) / CODE.sizePt < PHOTO_LIMITS.leastDpi ? 'too-far' : 'code-unreadable';
}

/** The part of a photo that holds some points. */
function partAround({ width, height, data }: GreyImage, points: readonly Point[]): GreyImage {
	const [xs, ys] = [points.map(({ x }) => x), points.map(({ y }) => y)];
	const [left, right] = [Math.max(0, Math.floor(Math.min(...xs))), Math.min(width, Math.ceil(Math.max(...xs)))];
	const [top, bottom] = [Math.max(0, Math.floor(Math.min(...ys))), Math.min(height, Math.ceil(Math.max(...ys)))];
	const [wide, high] = [Math.max(0, right - left), Math.max(0, bottom - top)];
	const part = new Uint8Array(wide * high);
	for (let y = 0; y < high; y++)
		part.set(data.subarray((top + y) * width + left, (top + y) * width + left + wide), y * wide);
	return { width: wide, height: high, data: part };
}

const viewOfCode = ({ corners }: FoundCode): Homography | undefined =>
	homographyOf(
		codeCorners().map(({ x, y }) => ({ x: x * PX_PER_PT, y: y * PX_PER_PT })),
		corners
	);
