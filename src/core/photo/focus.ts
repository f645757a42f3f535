import type { GreyImage } from '../image';
import { blurWeights } from './blurMap';
import { scaleAt, type PageMap } from './pageMap';

/** Blurs that are tried, as standard deviations in pixels of the 200 dpi page. */
const SIGMAS = [0.3, 0.35, 0.45, 0.6, 0.8, 1, 1.25, 1.5, 1.8, 2.2, 2.7, 3.3] as const;

/** Side of the squares that are compared, how far apart they are looked for, and how many of the most printed are taken. */
const SIDE_PX = 48;
const STEP_PX = 64;
const SQUARES = 32;

/** How surely black is the same all over: greys that one square's black is off, and share of the light that it may grow by. */
const BLACK_ERROR = 4;
const BLACK_GROWS = 0.1;

/** How sharp and how dark the photo shows the print. */
export interface Focus {
	/** Standard deviation of the blur: in pixels of the 200 dpi page, of most of the squares; and in pixels of the photo. */
	readonly sigmaPx: number;
	readonly sigmaInPhoto: number;
	/** How much of the print's own contrast is left in the middle of squares: 1 where black print takes all the light it should. */
	readonly contrast: number;
	/** Grey that black has in the photo: flare, which is the same all over, and a share of the light on the paper. */
	readonly black: { readonly grey: number; readonly ofLight: number };
}

/**
 * Finds the blur under which the print looks most like the picture, where both are most printed; ink spoils a few of the
 * squares, so each finds its own and the middle one is taken. `map`: where in the photo the picture was taken
 * from; without it the photo's pixels are taken to be as large as the page's.
 */
export function findFocus(picture: GreyImage, print: GreyImage, white: number, map?: PageMap): Focus {
	const found = mostPrinted(print, white).flatMap((place) => {
		const one = focusAt(picture, print, white, place);
		const { left, top } = place;
		return one ? [{ ...one, scale: map ? scaleAt(map, left + SIDE_PX / 2, top + SIDE_PX / 2) : 1 }] : [];
	});
	if (found.length === 0)
		return { sigmaPx: Infinity, sigmaInPhoto: Infinity, contrast: 0, black: { grey: 0, ofLight: 0 } };
	return {
		sigmaPx: middleOf(found.map(({ sigmaPx }) => sigmaPx)),
		sigmaInPhoto: middleOf(found.map(({ sigmaPx, scale }) => sigmaPx * scale)),
		contrast: middleOf(found.map(({ light, black }) => (light - black) / light)),
		black: blackOf(found)
	};
}

const middleOf = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1] as number;

/**
 * Black as a line of the light, by least squares that would rather have it level; squares that are further off than most are
 * left out the second time, because there is ink in them.
 */
function blackOf(squares: readonly Square[]): Focus['black'] {
	let own = squares;
	let [grey, ofLight] = [0, 0];
	for (let round = 0; round < 2; round++) {
		const middle = own.reduce((sum, { light }) => sum + light, 0) / own.length;
		const level = own.reduce((sum, { black }) => sum + black, 0) / own.length;
		let [over, under] = [0, (BLACK_ERROR / BLACK_GROWS) ** 2];
		for (const { light, black } of own) {
			over += (light - middle) * (black - level);
			under += (light - middle) ** 2;
		}
		ofLight = over / under;
		grey = level - ofLight * middle;
		const errors = squares.map(({ light, black }) => Math.abs(black - grey - ofLight * light));
		const usual = Math.max(1, middleOf(errors));
		own = squares.filter((_, i) => (errors[i] as number) <= 2.5 * usual);
	}
	return { grey, ofLight };
}

/** What one square says: its blur in pixels of the page, the greys of its paper and of black. */
interface Square {
	readonly sigmaPx: number;
	readonly light: number;
	readonly black: number;
}

/** A square of the print, and what of it was worked out for earlier photos: by number of the blur, undefined where not yet. */
interface Place {
	readonly left: number;
	readonly top: number;
	readonly printed: number;
	readonly blurred: (Blurred | undefined)[];
}

/** What a square of the print takes of the light under one blur, the sum of that and of its squares. */
interface Blurred {
	readonly taken: Float32Array;
	readonly sum: number;
	readonly squares: number;
}

const placesKept = new WeakMap<GreyImage, readonly Place[]>();

/** The most printed squares of a page. Kept for each page, which never changes: one photo after another is compared with it. */
function mostPrinted(print: GreyImage, white: number): readonly Place[] {
	const known = placesKept.get(print);
	if (known) return known;
	const places: Place[] = [];
	for (let top = STEP_PX; top + SIDE_PX + STEP_PX < print.height; top += STEP_PX)
		for (let left = STEP_PX; left + SIDE_PX + STEP_PX < print.width; left += STEP_PX) {
			let printed = 0;
			for (let y = top; y < top + SIDE_PX; y += 2)
				for (let x = left; x < left + SIDE_PX; x += 2) printed += white - (print.data[y * print.width + x] as number);
			places.push({ left, top, printed, blurred: [] });
		}
	const most = places.sort((a, b) => b.printed - a.printed).slice(0, SQUARES);
	placesKept.set(print, most);
	return most;
}

function focusAt(picture: GreyImage, print: GreyImage, white: number, place: Place): Square | undefined {
	let best: Tried | undefined;
	const tried: (Tried | undefined)[] = SIGMAS.map(() => undefined);
	// Every third blur first, then those beside the best one.
	for (const step of [3, 1])
		for (let i = 1; i < SIGMAS.length; i++) {
			const isNear = best !== undefined && Math.abs(i - best.number) <= 2;
			if (tried[i] || (step === 3 ? i % 3 !== 1 : !isNear)) continue;
			const one = tryBlur(picture, print, white, place, i);
			if (!one) return undefined;
			tried[i] = one;
			if (one.light > 0 && (!best || one.error < best.error)) best = one;
		}
	if (!best) return undefined;
	const [before, after] = [tried[best.number - 1], tried[best.number + 1]];
	const middle = best.sigmaPx;
	if (!before || !after) return best;
	// Between the steps by the parabola through three errors.
	const [low, high] = [middle - before.sigmaPx, after.sigmaPx - middle];
	const lower = (before.error - best.error) / low;
	const upper = (after.error - best.error) / high;
	const sigmaPx = lower + upper > 0 ? middle + (lower * high - upper * low) / (2 * (lower + upper)) : middle;
	return { ...best, sigmaPx };
}

/** One blur tried on a square, and how badly the print so blurred explains the picture. */
interface Tried extends Square {
	readonly number: number;
	readonly error: number;
}

function tryBlur(
	picture: GreyImage,
	print: GreyImage,
	white: number,
	{ left, top, blurred }: Place,
	number: number
): Tried | undefined {
	const sigmaPx = SIGMAS[number] as number;
	const { taken, sum: sx, squares: sxx } = (blurred[number] ??= blurredSquare(print, white, left, top, sigmaPx));
	// The picture as a straight line of what the blurred print takes: light at its foot, contrast as its slope.
	const n = SIDE_PX * SIDE_PX;
	let [sy, sxy, syy] = [0, 0, 0];
	for (let y = 0; y < SIDE_PX; y++)
		for (let x = 0, at = (top + y) * picture.width + left; x < SIDE_PX; x++, at++) {
			const q = picture.data[at] as number;
			sy += q;
			sxy += (taken[y * SIDE_PX + x] as number) * q;
			syy += q * q;
		}
	const vx = sxx - (sx * sx) / n;
	const vxy = sxy - (sx * sy) / n;
	const vy = syy - (sy * sy) / n;
	if (vx <= 0 || vy <= 0) return undefined;
	const slope = vxy / vx;
	const light = (sy - slope * sx) / n;
	return { number, sigmaPx, light, black: light + slope * white, error: vy - (vxy * vxy) / vx };
}

/** What the blurred print takes of the light in one square. */
function blurredSquare(print: GreyImage, white: number, left: number, top: number, sigma: number): Blurred {
	const weights = blurWeights(sigma);
	const reach = weights.length - 1;
	const high = SIDE_PX + 2 * reach;
	const across = new Float32Array(SIDE_PX * high);
	for (let y = 0; y < high; y++)
		for (let x = 0; x < SIDE_PX; x++) {
			const at = (top + y - reach) * print.width + left + x;
			let sum = (weights[0] as number) * (white - (print.data[at] as number));
			for (let k = 1; k <= reach; k++)
				sum += (weights[k] as number) * (2 * white - (print.data[at - k] as number) - (print.data[at + k] as number));
			across[y * SIDE_PX + x] = sum;
		}
	const taken = new Float32Array(SIDE_PX * SIDE_PX);
	let [total, squares] = [0, 0];
	for (let y = 0; y < SIDE_PX; y++)
		for (let x = 0; x < SIDE_PX; x++) {
			const at = (y + reach) * SIDE_PX + x;
			let sum = (weights[0] as number) * (across[at] as number);
			for (let k = 1; k <= reach; k++)
				sum += (weights[k] as number) * ((across[at - k * SIDE_PX] as number) + (across[at + k * SIDE_PX] as number));
			taken[y * SIDE_PX + x] = sum;
			const kept = taken[y * SIDE_PX + x] as number;
			total += kept;
			squares += kept * kept;
		}
	return { taken, sum: total, squares };
}
