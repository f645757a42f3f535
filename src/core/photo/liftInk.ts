import type { GreyImage } from '../image';
import { blurred, lightest } from './blur';
import type { Focus } from './focus';
import { noiseOf } from './noiseOf';
import { lightsAlong, paperLight } from './paperLight';
import { sharpenInPlace, TILE_PX } from './sharpen';

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
export function liftInk(picture: GreyImage, print: GreyImage, { sigmaPx, contrast }: Focus): GreyImage {
	const { width, height } = print;
	const white = lightest(print);
	const soft = blurred(print, sigmaPx);
	const light = paperLight(picture, soft, white);
	const passed = new Float32Array(width * height).fill(1);
	const across = Math.ceil(width / TILE_PX);
	const inked = new Uint8Array(across * Math.ceil(height / TILE_PX));
	const paper = new Float32Array(width);
	const noise = (NOISE_DEVIATIONS * noiseOf(picture, soft, white)) / contrast;
	for (let y = EDGE_PX; y < height - EDGE_PX; y++) {
		lightsAlong(light, y, paper);
		const base = y * width;
		for (let x = EDGE_PX; x < width - EDGE_PX; x++) {
			const at = base + x;
			const grey = picture.data[at] as number;
			const bare = paper[x] as number;
			let lowest = soft.data[at] as number;
			// Most of the paper is plainly bare.
			if (grey >= bare * (1 - (contrast * (white - lowest)) / white) * (1 - LEAST_TAKEN * contrast)) continue;
			if (lowest < white) {
				const beside = Math.min(
					soft.data[at - 1] as number,
					soft.data[at + 1] as number,
					soft.data[at - width] as number,
					soft.data[at + width] as number
				);
				if (beside < lowest) lowest -= SLIP_PX * (lowest - beside);
			}
			const shown = lowest / white;
			if (shown < LEAST_SHOWN) continue;
			const share = (1 - (1 - grey / bare) / contrast) / shown;
			if (1 - share <= Math.max(LEAST_TAKEN, noise / (bare * shown))) continue;
			passed[at] = share < 0 ? 0 : share;
			inked[Math.floor(y / TILE_PX) * across + Math.floor(x / TILE_PX)] = 1;
		}
	}
	clearSpecksInPlace(passed, width, height, inked);
	const places = sharpenInPlace(passed, width, height, inked, sigmaPx);
	const data = print.data.slice();
	for (const { left, top } of places)
		for (let y = top; y < Math.min(height, top + TILE_PX); y++)
			for (let x = left; x < Math.min(width, left + TILE_PX); x++) {
				const at = y * width + x;
				const share = passed[at] as number;
				if (1 - share > LEAST_TAKEN) data[at] = ((data[at] as number) * share + 0.5) | 0;
			}
	return { width, height, data };
}

/** A dark pixel with fewer than two dark ones among the eight around it is noise: the finest pen covers more. */
function clearSpecksInPlace(passed: Float32Array, width: number, height: number, inked: Uint8Array): void {
	const across = Math.ceil(width / TILE_PX);
	const specks: number[] = [];
	inked.forEach((has, tile) => {
		if (has === 0) return;
		const [left, top] = [(tile % across) * TILE_PX, Math.floor(tile / across) * TILE_PX];
		let kept = false;
		for (let y = Math.max(1, top); y < Math.min(height - 1, top + TILE_PX); y++)
			for (let x = Math.max(1, left); x < Math.min(width - 1, left + TILE_PX); x++) {
				const at = y * width + x;
				if ((passed[at] as number) === 1) continue;
				let beside = -1;
				for (let row = at - width; row <= at + width; row += width)
					for (let pixel = row - 1; pixel <= row + 1; pixel++) if ((passed[pixel] as number) < 1) beside += 1;
				if (beside < 2) specks.push(at);
				else kept = true;
			}
		if (!kept) inked[tile] = 0;
	});
	for (const at of specks) passed[at] = 1;
}
