import type { GreyImage } from '../image';
import { blurred, lightest } from './blur';
import { TILE_PX, type BlurMap } from './blurMap';
import type { Focus } from './focus';
import { clearSpecksInPlace, type Inked } from './inked';
import { noiseOf } from './noiseOf';
import { lightsAlong, paperLight, SQUARE_PX } from './paperLight';
import { sharpenInPlace } from './sharpen';

/** How far print may lie beside where it is expected, in pixels: darkness that such a slip explains is no ink. */
const SLIP_PX = 0.5;

/** What takes less than this share of the light is bare paper; the same for what noise may take, in its deviations. */
const LEAST_TAKEN = 0.06;
const NOISE_DEVIATIONS = 4;

/** Under print darker than this share of the paper nothing can be told of ink. */
const LEAST_SHOWN = 0.25;

/** So near the paper's edge, what lies under it may be seen: 2 mm, outside the corner marks. */
const EDGE_PX = 16;

/**
 * The page as a scanner would see it, from a picture of it that lies on the print but is lit, blurred and faded as
 * photos are. What the ink alone lets pass is found by comparing the picture with the print as this photo would show it;
 * that share, sharpened, is then laid on the sharp print.
 */
export function liftInk(picture: GreyImage, print: GreyImage, blur: BlurMap, { black }: Focus): GreyImage {
	const { width, height } = print;
	const white = lightest(print);
	const soft = blurred(print, blur);
	const inked = passedBy(picture, soft, white, black);
	clearSpecksInPlace(inked, soft, white);
	const tiles = sharpenInPlace(inked, blur);
	const data = print.data.slice();
	for (const { left, top } of tiles)
		for (let y = top; y < Math.min(height, top + TILE_PX); y++)
			for (let x = left; x < Math.min(width, left + TILE_PX); x++) {
				const at = y * width + x;
				const share = inked.passed[at] as number;
				if (1 - share > LEAST_TAKEN) data[at] = ((data[at] as number) * share + 0.5) | 0;
			}
	return { width, height, data };
}

/** The share of the light that ink lets pass at each pixel; 1 where there is none. */
function passedBy(picture: GreyImage, soft: GreyImage, white: number, black: Focus['black']): Inked {
	const { width, height } = picture;
	const light = paperLight(picture, soft, white);
	const passed = new Float32Array(width * height).fill(1);
	const across = Math.ceil(width / TILE_PX);
	const tiles = new Uint8Array(across * Math.ceil(height / TILE_PX));
	const knots = new Float32Array(light.columns + 2);
	const noise = NOISE_DEVIATIONS * noiseOf(picture, soft, white);
	const greys = picture.data;
	const expected = soft.data;
	// What is as light as this, or lighter, is bare: a line of the light, so that it is highest at one end of a span.
	const limitSlope = 1 - LEAST_TAKEN * (1 - black.ofLight);
	const limitFoot = LEAST_TAKEN * black.grey;
	for (let y = EDGE_PX; y < height - EDGE_PX; y++) {
		lightsAlong(light, y, knots);
		const base = y * width;
		for (let span = 0; span <= light.columns; span++) {
			const from = knots[span] as number;
			const step = ((knots[span + 1] as number) - from) / SQUARE_PX;
			const start = (span - 0.5) * SQUARE_PX;
			const end = Math.min(width - EDGE_PX, start + SQUARE_PX);
			const highest = limitFoot + limitSlope * Math.max(from, knots[span + 1] as number);
			for (let x = Math.max(EDGE_PX, start); x < end; x++) {
				const at = base + x;
				const grey = greys[at] as number;
				// Most of the paper is plainly bare.
				if (grey >= highest) continue;
				const bare = from + (x + 0.5 - start) * step;
				const dark = black.grey + black.ofLight * bare;
				const own = grey - dark;
				const full = bare - dark;
				let lowest = expected[at] as number;
				if (own * white >= full * lowest * (1 - LEAST_TAKEN)) continue;
				if (lowest < white) {
					const beside = Math.min(
						expected[at - 1] as number,
						expected[at + 1] as number,
						expected[at - width] as number,
						expected[at + width] as number
					);
					if (beside < lowest) lowest -= SLIP_PX * (lowest - beside);
				}
				const shown = lowest / white;
				if (shown < LEAST_SHOWN || full <= 0) continue;
				const share = own / (full * shown);
				if (1 - share <= Math.max(LEAST_TAKEN, noise / (full * shown))) continue;
				passed[at] = share < 0 ? 0 : share;
				tiles[Math.floor(y / TILE_PX) * across + Math.floor(x / TILE_PX)] = 1;
			}
		}
	}
	return { width, height, passed, tiles };
}
