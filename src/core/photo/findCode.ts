import type { Point } from '../geometry';
import type { GreyImage } from '../image';
import type { DecodeCode, FoundCode } from './foundCode';
import { project, type Homography } from './homography';
import { flatField, rectify } from './pageMap';

/** A photo with more pixels than this is looked through for its code at half its size first. */
const LARGE_PX = 5e6;

/** A code that was seen and not read is drawn again so wide, straight, with so much around it, in pixels. */
const SIDE_PX = 300;
const MARGIN_PX = 60;

/** Modules of one side of the codes of most sheets; a few more or less do no harm. */
const USUAL_MODULES = 33;

/** The first finder pattern's middle in the straightened picture, how far apart they are, and how far off they may be, in sides. */
const INSET_PX = MARGIN_PX + 3.5 * (SIDE_PX / USUAL_MODULES);
const APART_PX = SIDE_PX - 7 * (SIDE_PX / USUAL_MODULES);
const PLACE_SHARE = 0.04;

/** How strongly it is sharpened; the later tries are for photos that the earlier do not help. */
const STRENGTHS = [0, 1.5, 4, 8] as const;

/** Longer sides to which a whole photo is brought, in pixels, and how strongly it is sharpened, when no code was read in it. */
const SHARPENED_PX = [1400, 2200] as const;
const SHARPENED_BY = 4;

/** Reach of the mean that a pixel is sharpened against, in parts of the code's side, and every which pixel is looked at. */
const SHARPEN_REACH = 1 / 50;
const STEP_PX = 3;

/**
 * The code in a photo: read, or at least seen. One that is seen and not read is straightened, sharpened and tried again.
 * `levels`: the photo and its halves; without them it is looked at only quickly, as frames of a camera are.
 */
export function findCode(
	photo: GreyImage,
	decode: DecodeCode,
	levels: readonly GreyImage[] = [photo]
): FoundCode | undefined {
	let seen: FoundCode | undefined;
	for (const { image, scale, doubtful } of looksAt(photo, levels)) {
		const found = decode(image);
		if (!found) continue;
		const inPhoto = moved(found, scale);
		const again = readAgain(levels, inPhoto, decode);
		if (again?.text !== undefined) return again;
		if (again || !doubtful) seen ??= inPhoto;
	}
	return seen;
}

/** A photo, or what was made of it, and how many of the photo's pixels one of its own is wide. */
interface Look {
	readonly image: GreyImage;
	readonly scale: number;
	/** Sharpened so much that patterns are seen in mere noise: what is not seen again is no code. */
	readonly doubtful: boolean;
}

/** The ways to look at a photo, quickest first. The sharpened ones are for codes that are too small or too blurred otherwise. */
function* looksAt(photo: GreyImage, levels: readonly GreyImage[]): Generator<Look> {
	const half = levels[1];
	if (half && photo.width * photo.height > LARGE_PX) yield { image: half, scale: 2, doubtful: false };
	yield { image: photo, scale: 1, doubtful: false };
	// One frame of many: the next will do.
	if (levels.length === 1) return;
	for (const longer of SHARPENED_PX) {
		const scale = Math.max(photo.width, photo.height) / longer;
		const view = Float64Array.of(scale, 0, 0, 0, scale, 0, 0, 0);
		const [widthPx, heightPx] = [Math.round(photo.width / scale), Math.round(photo.height / scale)];
		const image = rectify(levels, { widthPx, heightPx, view, field: flatField(widthPx, heightPx) }, 1);
		yield { image: sharpened(image, SHARPENED_BY), scale, doubtful: true };
	}
}

/**
 * The code with its text, if that can be read from the picture or from what is made of it; without, if it is seen again in
 * its place when straightened.
 */
function readAgain(levels: readonly GreyImage[], found: FoundCode, decode: DecodeCode): FoundCode | undefined {
	if (found.text !== undefined) return found;
	let seen: FoundCode | undefined;
	// Seen from the side, a decoder may take the wrong one of the three finder patterns for that in the corner.
	for (let corner = 0; corner < 3; corner++) {
		const view = viewFrom(found.finders, corner);
		const wide = SIDE_PX + 2 * MARGIN_PX;
		const straight = rectify(levels, { widthPx: wide, heightPx: wide, view, field: flatField(wide, wide) }, 1);
		for (const strength of STRENGTHS) {
			const again = decode(strength === 0 ? straight : sharpened(straight, strength));
			if (again?.text !== undefined) return projected(again, found.modulePx, view);
			// Three patterns that are not one code: sharper they will not be.
			if (!again) break;
			if (isInPlace(again)) seen = found;
		}
	}
	return seen;
}

/** Whether the finder patterns of a straightened code are where they were put. */
function isInPlace({ finders }: FoundCode): boolean {
	const near = (x: number, y: number) => finders.some((at) => Math.hypot(at.x - x, at.y - y) < SIDE_PX * PLACE_SHARE);
	return near(INSET_PX, INSET_PX) && near(INSET_PX + APART_PX, INSET_PX) && near(INSET_PX, INSET_PX + APART_PX);
}

/** From the straightened code to the photo, as if there were no perspective: over a code there is little. */
function viewFrom(finders: readonly Point[], corner: number): Homography {
	const own = finders[corner] as Point;
	let [right, below] = [finders[(corner + 1) % 3] as Point, finders[(corner + 2) % 3] as Point];
	// Clockwise, as it was printed: a mirror image is no code.
	if ((right.x - own.x) * (below.y - own.y) < (right.y - own.y) * (below.x - own.x)) [right, below] = [below, right];
	const [a, b] = [(right.x - own.x) / APART_PX, (below.x - own.x) / APART_PX];
	const [d, e] = [(right.y - own.y) / APART_PX, (below.y - own.y) / APART_PX];
	return Float64Array.of(a, b, own.x - INSET_PX * (a + b), d, e, own.y - INSET_PX * (d + e), 0, 0);
}

function projected({ text, corners, finders }: FoundCode, modulePx: number, view: Homography): FoundCode {
	const place = ({ x, y }: Point) => project(view, x, y);
	return { text, corners: corners.map(place), finders: finders.map(place), modulePx };
}

function moved({ text, corners, finders, modulePx }: FoundCode, scale: number): FoundCode {
	const place = ({ x, y }: Point) => ({ x: x * scale, y: y * scale });
	return { text, corners: corners.map(place), finders: finders.map(place), modulePx: modulePx * scale };
}

/** Every pixel further from the mean of the square around it. */
function sharpened({ width, height, data }: GreyImage, strength: number): GreyImage {
	const reach = Math.round(SIDE_PX * SHARPEN_REACH);
	const result = new Uint8Array(data.length);
	for (let y = 0; y < height; y++)
		for (let x = 0; x < width; x++) {
			let [sum, count] = [0, 0];
			for (let row = Math.max(0, y - reach); row <= Math.min(height - 1, y + reach); row += STEP_PX)
				for (let column = Math.max(0, x - reach); column <= Math.min(width - 1, x + reach); column += STEP_PX) {
					sum += data[row * width + column] as number;
					count += 1;
				}
			const grey = data[y * width + x] as number;
			result[y * width + x] = Math.max(0, Math.min(255, Math.round(grey + strength * (grey - sum / count))));
		}
	return { width, height, data: result };
}
