import type { GreyImage } from '../image';

/** Every which pixel is looked at. */
const STEP_PX = 5;

/** Grey that this share of the picture stays under. */
export function greyOver({ data }: GreyImage, share: number): number {
	const counts = new Uint32Array(256);
	for (let i = 0; i < data.length; i += STEP_PX) counts[data[i] as number] = (counts[data[i] as number] as number) + 1;
	let below = 0;
	for (let grey = 0; grey < 256; grey++) {
		below += counts[grey] as number;
		if (below >= (share * data.length) / STEP_PX) return grey;
	}
	return 255;
}
