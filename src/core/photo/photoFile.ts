/** The largest photo that phones save, in bytes, and more pixels than any phone's camera gives: keeps a wrong file out of memory. */
export const LARGEST_PHOTO_BYTES = 60 * 1024 * 1024;
export const LARGEST_PHOTO_PX = 110e6;

/** Sets greys from `to` on: Rec. 601 luma, in 256ths, of red, green, blue and opacity; what is clear lies on white paper. */
export function lumaInto(grey: Uint8Array, to: number, colours: Uint8Array | Uint8ClampedArray): void {
	for (let at = 0; at < colours.length; at += 4, to++) {
		const luma = 77 * (colours[at] as number) + 150 * (colours[at + 1] as number) + 29 * (colours[at + 2] as number);
		const opacity = colours[at + 3] as number;
		if (opacity === 255) grey[to] = (luma + 128) >> 8;
		else grey[to] = Math.round((luma / 256) * (opacity / 255) + 255 * (1 - opacity / 255));
	}
}
