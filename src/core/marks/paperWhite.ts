import type { GreyImage, PixelBox } from '../image';

/** Side of the squares in which the paper's grey is taken, in pixels, and every which pixel of them is looked at. */
export const SQUARE_PX = 64;
const STEP_PX = 8;

/** The paper of a square is as light as this share of its pixels are at most: most of any square is paper. */
const PAPER_SHARE = 0.85;

/** A square with fewer unprinted samples says nothing. */
const LEAST_SAMPLES = 12;

/** Squares to each side among which the lightest gives the paper, so that a stain does not pass for paper. */
const AROUND = 2;

/** How light the paper is around each place of a page. */
export interface PaperWhite {
	/** Grey of blank paper at a pixel of the page. */
	at(x: number, y: number): number;
}

/**
 * Finds the paper's own grey where nothing is printed, in and around `part`. `printWhite`: grey of blank
 * paper in `print`.
 */
export function paperWhite(page: GreyImage, print: GreyImage, printWhite: number, part: PixelBox): PaperWhite {
	const firstColumn = Math.floor(part.xPx / SQUARE_PX);
	const firstRow = Math.floor(part.yPx / SQUARE_PX);
	const columns = Math.ceil((part.xPx + part.widthPx) / SQUARE_PX) - firstColumn;
	const rows = Math.ceil((part.yPx + part.heightPx) / SQUARE_PX) - firstRow;
	const wide = columns + 2 * AROUND;
	const high = rows + 2 * AROUND;
	const squares = new Uint8Array(wide * high);
	const counts = new Uint16Array(256);
	for (let row = 0; row < high; row++)
		for (let column = 0; column < wide; column++)
			squares[row * wide + column] = whiteOf(
				page,
				print,
				printWhite,
				(firstColumn + column - AROUND) * SQUARE_PX,
				(firstRow + row - AROUND) * SQUARE_PX,
				counts
			);
	const whites = new Uint8Array(columns * rows);
	for (let row = 0; row < rows; row++)
		for (let column = 0; column < columns; column++) {
			let lightest = 0;
			for (let y = row; y <= row + 2 * AROUND; y++)
				for (let x = column; x <= column + 2 * AROUND; x++) lightest = Math.max(lightest, squares[y * wide + x] ?? 0);
			whites[row * columns + column] = lightest || printWhite;
		}
	return {
		at: (x, y) =>
			whites[(Math.floor(y / SQUARE_PX) - firstRow) * columns + Math.floor(x / SQUARE_PX) - firstColumn] ?? printWhite
	};
}

/** Grey of the paper in one square, 0 where too little of it is unprinted. `counts` is scratch. */
function whiteOf(
	page: GreyImage,
	print: GreyImage,
	printWhite: number,
	left: number,
	top: number,
	counts: Uint16Array
): number {
	const right = Math.min(page.width, left + SQUARE_PX);
	const bottom = Math.min(page.height, top + SQUARE_PX);
	let samples = 0;
	counts.fill(0);
	for (let y = Math.max(0, top); y < bottom; y += STEP_PX)
		for (let x = Math.max(0, left), at = y * page.width + x; x < right; x += STEP_PX, at += STEP_PX) {
			if ((print.data[at] as number) < printWhite) continue;
			const grey = page.data[at] as number;
			counts[grey] = (counts[grey] as number) + 1;
			samples += 1;
		}
	if (samples < LEAST_SAMPLES) return 0;
	let below = 0;
	let grey = 0;
	for (; grey < 255; grey++) {
		below += counts[grey] as number;
		if (below >= PAPER_SHARE * samples) break;
	}
	return grey;
}
