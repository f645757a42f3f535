import type { GreyImage } from '../image';

/** Half the size each way: every pixel the mean of four. An odd last row or column is left out. */
export function halve({ width, height, data }: GreyImage): GreyImage {
	const [columns, rows] = [width >> 1, height >> 1];
	const half = new Uint8Array(columns * rows);
	for (let row = 0; row < rows; row++) {
		let at = 2 * row * width;
		const end = (row + 1) * columns;
		for (let to = row * columns; to < end; to++, at += 2)
			half[to] =
				((data[at] as number) +
					(data[at + 1] as number) +
					(data[at + width] as number) +
					(data[at + width + 1] as number) +
					2) >>
				2;
	}
	return { width: columns, height: rows, data: half };
}

/** An image and its halves, each half the size of the one before, down to about `leastPx` on the shorter side. */
export function pyramidOf(image: GreyImage, leastPx: number): readonly GreyImage[] {
	const levels = [image];
	for (let last = image; Math.min(last.width, last.height) >= 2 * leastPx; levels.push(last)) last = halve(last);
	return levels;
}
