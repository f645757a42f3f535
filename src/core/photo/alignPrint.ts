import type { GreyImage } from '../image';
import { PT_PER_PX, PX_PER_PT } from '../image';
import { cornersOf } from '../sheet/signs';
import { findBlock, type Search } from './correlate';
import { fitField, type Measured } from './fitField';
import { flatField, rectify, shiftAt, type PageMap } from './pageMap';
import type { Homography } from './homography';

/** How well the photo lies on the print in the end. */
export interface Alignment {
	readonly map: PageMap;
	/** Distances between where parts of the print should be and where they are, in points: middle and 95th of a hundred. */
	readonly residualPt: number;
	readonly residual95Pt: number;
	/** Share of the blocks with print in which the photo shows that print. */
	readonly seen: number;
}

/**
 * One pass: at which scale (pixels of the 200 dpi page to one looked at), how large the blocks are and how far they are
 * looked for, in pixels of that scale, how far apart they stand and how far the field follows each, in pixels of the page.
 */
export interface Pass {
	readonly level: number;
	readonly sidePx: number;
	readonly reachPx: number;
	readonly stepPx: number;
	readonly softPx: number;
	readonly leastLikeness: number;
	readonly search: Search;
}

/**
 * From rough to fine. The first looks for blocks of an inch as far as a sheet that rises by half an inch moves when seen
 * from the widest angle; the last for blocks of a row's height to a fraction of a pixel. Found by trial.
 */
export const PASSES: readonly Pass[] = [
	{ level: 3, sidePx: 24, reachPx: 6, stepPx: 112, softPx: 180, leastLikeness: 0.55, search: 'widely' },
	{ level: 2, sidePx: 24, reachPx: 4, stepPx: 80, softPx: 110, leastLikeness: 0.6, search: 'uphill' },
	{ level: 1, sidePx: 28, reachPx: 3, stepPx: 56, softPx: 70, leastLikeness: 0.65, search: 'uphill' },
	{ level: 1, sidePx: 24, reachPx: 2, stepPx: 40, softPx: 32, leastLikeness: 0.65, search: 'uphill' }
];

/** A likeness that falls off by less, a pixel to either side, says nothing; from FULL_BEND on it is as good as any. Found by trial. */
const LEAST_BEND = 0.02;
const FULL_BEND = 0.1;

/** Variance from which a block has print enough to be looked for. */
export const LEAST_VARIANCE = 150;

/**
 * What a corner mark weighs against a block of print: the view goes through its middle, so there the paper strays by
 * nothing, and around the page's lower edge little else says where the print lies. Found by trial.
 */
const CORNER_WEIGHT = 4;

/**
 * Lays a photo on the print: `view` from its corner marks holds for flat paper, the field found here for what is curled
 * or creased. `levels`: the photo and its halves; `prints`: the printed sheet and its halves.
 */
export function alignPrint(levels: readonly GreyImage[], prints: readonly GreyImage[], view: Homography): Alignment {
	const [{ width, height } = { width: 0, height: 0 }] = prints;
	let map: PageMap = { widthPx: width, heightPx: height, view, field: flatField(width, height) };
	const corners = cornersOf({ widthPt: width * PT_PER_PX, heightPt: height * PT_PER_PX }).map(({ x, y }) => ({
		x: x * PX_PER_PT,
		y: y * PX_PER_PT,
		dx: 0,
		dy: 0,
		weightX: CORNER_WEIGHT,
		weightY: CORNER_WEIGHT
	}));
	let left: readonly number[] = [];
	let seen = 0;
	for (const pass of PASSES) {
		const { measured, tried } = measure(levels, prints, map, pass);
		seen = tried === 0 ? 0 : measured.length / tried;
		if (measured.length < 10) break;
		const fitted = fitField([...measured, ...corners], width, height, pass.softPx);
		map = { ...map, field: fitted.field };
		left = fitted.left;
	}
	const sorted = [...left].sort((a, b) => a - b);
	const at = (share: number) => (sorted[Math.floor(share * (sorted.length - 1))] ?? Infinity) * PT_PER_PX;
	return { map, residualPt: at(0.5), residual95Pt: at(0.95), seen };
}

/** Every block with print enough that was found again, with the whole shift of its place. */
function measure(
	levels: readonly GreyImage[],
	prints: readonly GreyImage[],
	map: PageMap,
	{ level, sidePx, reachPx, stepPx, leastLikeness, search }: Pass
): { readonly measured: readonly Measured[]; readonly tried: number } {
	const stride = 2 ** level;
	const print = prints[level];
	if (!print) throw new RangeError(`alignPrint: expected the print at level ${level}, got ${prints.length} levels`);
	const picture = rectify(levels, map, stride);
	const measured: Measured[] = [];
	let tried = 0;
	const step = stepPx / stride;
	for (let y = 0; y + sidePx <= print.height; y += step)
		for (let x = 0; x + sidePx <= print.width; x += step) {
			const match = findBlock(
				print,
				picture,
				Math.round(x),
				Math.round(y),
				sidePx,
				0,
				0,
				reachPx,
				LEAST_VARIANCE,
				search
			);
			if (!match) continue;
			tried += 1;
			if (match.likeness < leastLikeness) continue;
			const at = { x: (Math.round(x) + sidePx / 2) * stride, y: (Math.round(y) + sidePx / 2) * stride };
			const [dx, dy] = [match.dx * stride, match.dy * stride];
			const [hasX, hasY] = shiftAt(map.field, at.x + dx, at.y + dy);
			const weight = match.likeness * match.likeness;
			const [weightX, weightY] = [weight * sureness(match.bendX), weight * sureness(match.bendY)];
			measured.push({ ...at, dx: dx + hasX, dy: dy + hasY, weightX, weightY });
		}
	return { measured, tried };
}

/** How much a shift along one direction is believed: along a line anything matches. */
const sureness = (bend: number): number => (bend < LEAST_BEND ? 0 : Math.min(1, bend / FULL_BEND));
