import type { GreyImage } from '../image';
import { blurWeights } from './blur';

/** Blurs that are tried, as standard deviations in pixels of the 200 dpi page. */
const SIGMAS = [0.45, 0.6, 0.8, 1, 1.25, 1.5, 1.8, 2.2, 2.7, 3.3] as const;

/** Side of the squares that are compared, how far apart they are looked for, and how many of the most printed are taken. */
const SIDE_PX = 48;
const STEP_PX = 64;
const SQUARES = 40;

/** How sharp and how dark the photo shows the print. */
export interface Focus {
	/** Standard deviation of the blur, in pixels of the 200 dpi page. */
	readonly sigmaPx: number;
	/** How much of the print's own contrast is left: 1 where black print takes all the light it should. */
	readonly contrast: number;
}

/**
 * Finds the blur under which the print looks most like the picture, where both are most printed; ink spoils a few of the
 * squares, so each finds its own and the middle one is taken.
 */
export function findFocus(picture: GreyImage, print: GreyImage, white: number): Focus {
	const found = mostPrinted(print, white).flatMap(({ left, top }) => {
		const one = focusAt(picture, print, white, left, top);
		return one ? [one] : [];
	});
	const middle = (values: readonly number[]) => [...values].sort((a, b) => a - b)[values.length >> 1] ?? Infinity;
	return {
		sigmaPx: middle(found.map(({ sigmaPx }) => sigmaPx)),
		contrast: found.length === 0 ? 0 : middle(found.map(({ contrast }) => contrast))
	};
}

interface Place {
	readonly left: number;
	readonly top: number;
}

function mostPrinted(print: GreyImage, white: number): readonly Place[] {
	const places: (Place & { readonly printed: number })[] = [];
	for (let top = STEP_PX; top + SIDE_PX + STEP_PX < print.height; top += STEP_PX)
		for (let left = STEP_PX; left + SIDE_PX + STEP_PX < print.width; left += STEP_PX) {
			let printed = 0;
			for (let y = top; y < top + SIDE_PX; y += 2)
				for (let x = left; x < left + SIDE_PX; x += 2) printed += white - (print.data[y * print.width + x] as number);
			places.push({ left, top, printed });
		}
	return places.sort((a, b) => b.printed - a.printed).slice(0, SQUARES);
}

function focusAt(picture: GreyImage, print: GreyImage, white: number, left: number, top: number): Focus | undefined {
	let best: (Focus & { readonly error: number }) | undefined;
	const errors: number[] = [];
	for (const sigma of SIGMAS) {
		const taken = blurredSquare(print, white, left, top, sigma);
		// The picture as a straight line of what the blurred print takes: light at its foot, contrast as its slope.
		let [n, sx, sy, sxx, sxy, syy] = [0, 0, 0, 0, 0, 0];
		for (let y = 0; y < SIDE_PX; y++)
			for (let x = 0; x < SIDE_PX; x++) {
				const p = taken[y * SIDE_PX + x] as number;
				const q = picture.data[(top + y) * picture.width + left + x] as number;
				n += 1;
				sx += p;
				sy += q;
				sxx += p * p;
				sxy += p * q;
				syy += q * q;
			}
		const vx = sxx - (sx * sx) / n;
		const vxy = sxy - (sx * sy) / n;
		const vy = syy - (sy * sy) / n;
		if (vx <= 0 || vy <= 0) return undefined;
		const slope = vxy / vx;
		const light = (sy - slope * sx) / n;
		const error = vy - (vxy * vxy) / vx;
		errors.push(error);
		if (light > 0 && (!best || error < best.error))
			best = { sigmaPx: sigma, contrast: (-slope * white) / light, error };
	}
	if (!best) return undefined;
	const at = SIGMAS.indexOf(best.sigmaPx as (typeof SIGMAS)[number]);
	const [before, here, after] = [errors[at - 1], errors[at], errors[at + 1]];
	const [low, middle, high] = [SIGMAS[at - 1], SIGMAS[at], SIGMAS[at + 1]];
	if (before === undefined || after === undefined || here === undefined || !low || !middle || !high) return best;
	// Between the steps by the parabola through three errors.
	const lower = (before - here) / (middle - low);
	const upper = (after - here) / (high - middle);
	const sigmaPx =
		lower + upper > 0 ? middle + (lower * (high - middle) - upper * (middle - low)) / (2 * (lower + upper)) : middle;
	return { sigmaPx, contrast: best.contrast };
}

/** What the blurred print takes of the light in one square. */
function blurredSquare(print: GreyImage, white: number, left: number, top: number, sigma: number): Float32Array {
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
	const result = new Float32Array(SIDE_PX * SIDE_PX);
	for (let y = 0; y < SIDE_PX; y++)
		for (let x = 0; x < SIDE_PX; x++) {
			const at = (y + reach) * SIDE_PX + x;
			let sum = (weights[0] as number) * (across[at] as number);
			for (let k = 1; k <= reach; k++)
				sum += (weights[k] as number) * ((across[at - k * SIDE_PX] as number) + (across[at + k * SIDE_PX] as number));
			result[y * SIDE_PX + x] = sum;
		}
	return result;
}
