import type { GreyImage } from '../image';

/** Every which pixel is looked at. */
const STEP_PX = 7;

/** Middle of the absolute values of normal noise, in standard deviations; and what a pixel less the mean of two has. */
const MIDDLE_ABSOLUTE = 0.6745;
const LESS_TWO = Math.sqrt(1.5);

/** Standard deviation of a picture's noise, in greys, where the print is white: how much a pixel differs from those beside it. */
export function noiseOf(picture: GreyImage, print: GreyImage, printWhite: number): number {
	const counts = new Uint32Array(256 * 2);
	let count = 0;
	for (let y = STEP_PX; y < picture.height; y += STEP_PX)
		for (let x = STEP_PX; x + 1 < picture.width; x += STEP_PX) {
			const at = y * picture.width + x;
			if ((print.data[at] as number) < printWhite) continue;
			const twice = Math.abs(
				2 * (picture.data[at] as number) - (picture.data[at - 1] as number) - (picture.data[at + 1] as number)
			);
			counts[twice] = (counts[twice] as number) + 1;
			count += 1;
		}
	let below = 0;
	for (let twice = 0; twice < counts.length; twice++) {
		const here = counts[twice] as number;
		if (below + here >= count / 2 && here > 0)
			return Math.max(0, twice - 0.5 + (count / 2 - below) / here) / 2 / MIDDLE_ABSOLUTE / LESS_TWO;
		below += here;
	}
	return 0;
}
