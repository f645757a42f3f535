import * as imported from '@techstark/opencv-js';
import type { Point } from '../../src/core/geometry';
import type { GreyImage } from '../../src/core/image';
import { alignPrint, LEAST_VARIANCE, PASSES, type Pass } from '../../src/core/photo/alignPrint';
import { lightest } from '../../src/core/photo/blur';
import { fitField, type Measured } from '../../src/core/photo/fitField';
import type { Homography } from '../../src/core/photo/homography';
import { project } from '../../src/core/photo/homography';
import { flatField, shiftAt, type PageMap } from '../../src/core/photo/pageMap';

type Cv = typeof imported;
type Mat = InstanceType<Cv['Mat']>;

/** OpenCV's own build for WebAssembly, ready to use. Tests and benchmarks only. */
export const cv = await ready();

/** The module has a `then` that calls back with itself: awaited, or returned by an async function, it would never end. */
async function ready(): Promise<Omit<Cv, 'then'>> {
	const module = ((imported as { default?: unknown }).default ?? imported) as Cv & {
		then?: unknown;
		onRuntimeInitialized?: () => void;
	};
	if (typeof module.Mat !== 'function') await new Promise<void>((done) => (module.onRuntimeInitialized = done));
	delete module.then;
	return module;
}

/** Its constants, which its own types leave open. */
export const numbers = cv as unknown as Readonly<
	Record<
		| 'ADAPTIVE_THRESH_MEAN_C'
		| 'BORDER_REPLICATE'
		| 'CV_32F'
		| 'CV_32FC1'
		| 'CV_64FC1'
		| 'CV_64FC2'
		| 'CV_8U'
		| 'CV_8UC1'
		| 'INTER_AREA'
		| 'INTER_LINEAR'
		| 'INTER_NEAREST'
		| 'MORPH_CLOSE'
		| 'THRESH_BINARY'
		| 'THRESH_BINARY_INV'
		| 'THRESH_OTSU'
		| 'TM_CCOEFF_NORMED'
		| 'WARP_INVERSE_MAP',
		number
	>
>;

/** A grey image as OpenCV has it. The caller deletes it. */
export const matOf = ({ width, height, data }: GreyImage): Mat =>
	cv.matFromArray(height, width, numbers.CV_8UC1, data as unknown as number[]);

/** A copy of a Mat of greys. */
export const imageOf = (mat: Mat): GreyImage => ({
	width: mat.cols,
	height: mat.rows,
	data: Uint8Array.from(mat.data)
});

/** The homography that OpenCV finds by least squares of the distances. */
export function findHomography(from: readonly Point[], to: readonly Point[]): Homography {
	const [a, b] = [from, to].map((points) =>
		cv.matFromArray(
			points.length,
			1,
			numbers.CV_64FC2,
			points.flatMap(({ x, y }) => [x, y])
		)
	) as [Mat, Mat];
	const found = cv.findHomography(a, b, 0);
	const all = Array.from(found.data64F);
	for (const mat of [a, b, found]) mat.delete();
	return Float64Array.from(all.slice(0, 8), (part) => part / all[8]!);
}

/**
 * A page as the photo shows it through a homography, drawn by OpenCV. Its pixels' middles are whole numbers, ours are
 * halves: both planes are moved by half a pixel.
 */
export function warp(photo: Mat, view: Homography, width: number, height: number): Mat {
	const [a, b, c, d, e, f, g, h] = view as unknown as number[] as [
		number,
		number,
		number,
		number,
		number,
		number,
		number,
		number
	];
	const w = 1 + 0.5 * (g + h);
	const [u, v] = [c + 0.5 * (a + b), f + 0.5 * (d + e)];
	const matrix = cv.matFromArray(3, 3, numbers.CV_64FC1, [
		a - 0.5 * g,
		b - 0.5 * h,
		u - 0.5 * w,
		d - 0.5 * g,
		e - 0.5 * h,
		v - 0.5 * w,
		g,
		h,
		w
	]);
	const page = new cv.Mat();
	cv.warpPerspective(
		photo,
		page,
		matrix,
		new cv.Size(width, height),
		numbers.INTER_LINEAR | numbers.WARP_INVERSE_MAP,
		numbers.BORDER_REPLICATE
	);
	matrix.delete();
	return page;
}

/** The page through a map with a field, drawn by OpenCV's remap from the photo or one of its halves. */
function remap(levels: readonly Mat[], map: PageMap, stride: number): Mat {
	const [width, height] = [Math.floor(map.widthPx / stride), Math.floor(map.heightPx / stride)];
	const middle = project(map.view, map.widthPx / 2, map.heightPx / 2);
	const beside = project(map.view, map.widthPx / 2 + stride, map.heightPx / 2);
	const scale = Math.hypot(beside.x - middle.x, beside.y - middle.y);
	const level = Math.max(0, Math.min(levels.length - 1, Math.floor(Math.log2(Math.max(1, scale * 1.05)))));
	// Where each sixteenth pixel is, and in proportion between: OpenCV enlarges the table.
	const step = Math.max(1, 16 / stride);
	const [columns, rows] = [Math.ceil(width / step) + 1, Math.ceil(height / step) + 1];
	const [xs, ys] = [new Float32Array(columns * rows), new Float32Array(columns * rows)];
	for (let row = 0; row < rows; row++)
		for (let column = 0; column < columns; column++) {
			const [x, y] = [(column + 0.5) * step * stride, (row + 0.5) * step * stride];
			const [dx, dy] = shiftAt(map.field, x, y);
			const at = project(map.view, x + dx, y + dy);
			xs[row * columns + column] = at.x / 2 ** level - 0.5;
			ys[row * columns + column] = at.y / 2 ** level - 0.5;
		}
	const large = [xs, ys].map((table) => {
		const small = cv.matFromArray(rows, columns, numbers.CV_32FC1, table as unknown as number[]);
		const all = new cv.Mat();
		cv.resize(small, all, new cv.Size(columns * step, rows * step), 0, 0, numbers.INTER_LINEAR);
		const part = all.roi(new cv.Rect(0, 0, width, height));
		small.delete();
		all.delete();
		return part;
	}) as [Mat, Mat];
	const page = new cv.Mat();
	cv.remap(levels[level]!, page, large[0], large[1], numbers.INTER_LINEAR, numbers.BORDER_REPLICATE, new cv.Scalar());
	for (const mat of large) mat.delete();
	return page;
}

/** Blocks of the print found again by OpenCV's template matching, as one pass of `alignPrint` does. */
function measure(
	levels: readonly Mat[],
	print: GreyImage,
	printMat: Mat,
	map: PageMap,
	pass: Pass
): readonly Measured[] {
	const stride = 2 ** pass.level;
	const picture = remap(levels, map, stride);
	const { sidePx: side, reachPx: reach } = pass;
	const measured: Measured[] = [];
	const scores = new cv.Mat();
	for (let y = reach; y + side + reach <= print.height; y += pass.stepPx / stride)
		for (let x = reach; x + side + reach <= print.width; x += pass.stepPx / stride) {
			const [left, top] = [Math.round(x), Math.round(y)];
			if (left + side + reach > print.width || top + side + reach > print.height) continue;
			if (varianceOf(print, left, top, side) < LEAST_VARIANCE) continue;
			const block = printMat.roi(new cv.Rect(left, top, side, side));
			const around = picture.roi(new cv.Rect(left - reach, top - reach, side + 2 * reach, side + 2 * reach));
			cv.matchTemplate(around, block, scores, numbers.TM_CCOEFF_NORMED);
			block.delete();
			around.delete();
			const { maxVal, maxLoc } = (cv.minMaxLoc as unknown as (m: Mat) => { maxVal: number; maxLoc: Point })(scores);
			if (maxVal < pass.leastLikeness) continue;
			const wide = 2 * reach + 1;
			const score = (dx: number, dy: number) => scores.data32F[(maxLoc.y + dy) * wide + maxLoc.x + dx]!;
			const peak = (before: number, here: number, after: number) =>
				2 * here - before - after > 0.02 ? (after - before) / (2 * (2 * here - before - after)) : 0;
			const [inX, inY] = [maxLoc.x > 0 && maxLoc.x < wide - 1, maxLoc.y > 0 && maxLoc.y < wide - 1];
			const dx = maxLoc.x - reach + (inX ? peak(score(-1, 0), maxVal, score(1, 0)) : 0);
			const dy = maxLoc.y - reach + (inY ? peak(score(0, -1), maxVal, score(0, 1)) : 0);
			const at = { x: (left + side / 2) * stride, y: (top + side / 2) * stride };
			const [hasX, hasY] = shiftAt(map.field, at.x + dx * stride, at.y + dy * stride);
			const weight = maxVal * maxVal;
			measured.push({ ...at, dx: dx * stride + hasX, dy: dy * stride + hasY, weightX: weight, weightY: weight });
		}
	scores.delete();
	picture.delete();
	return measured;
}

function varianceOf({ width, data }: GreyImage, left: number, top: number, side: number): number {
	let [sum, squares] = [0, 0];
	for (let y = top; y < top + side; y++)
		for (let x = left; x < left + side; x++) {
			const grey = data[y * width + x]!;
			sum += grey;
			squares += grey * grey;
		}
	return squares / (side * side) - (sum / (side * side)) ** 2;
}

/** A photo's print with its halves, as OpenCV has them: made once for each sheet, like ours. */
export const matsOf = (images: readonly GreyImage[]): readonly Mat[] => images.map(matOf);

/** The photo and its halves, by OpenCV. */
export function halvesOf(photo: GreyImage, least: number): readonly Mat[] {
	const levels = [matOf(photo)];
	for (let last = levels[0]!; Math.min(last.rows, last.cols) >= 2 * least; last = levels.at(-1)!) {
		const half = new cv.Mat();
		cv.resize(last, half, new cv.Size(last.cols >> 1, last.rows >> 1), 0, 0, numbers.INTER_AREA);
		levels.push(half);
	}
	return levels;
}

/**
 * What comes after the code and the corner marks, with OpenCV: the print laid on the photo in four passes, the page drawn,
 * its light and blur taken off. The field is fitted by our own code, because OpenCV has nothing for it.
 */
export function layAndLift(
	levels: readonly Mat[],
	prints: readonly GreyImage[],
	printMats: readonly Mat[],
	view: Homography,
	{ sigmaPx, black }: { readonly sigmaPx: number; readonly black: number }
): GreyImage {
	const [{ width, height }] = prints as readonly [GreyImage];
	let map: PageMap = { widthPx: width, heightPx: height, view, field: flatField(width, height) };
	for (const pass of PASSES) {
		const measured = measure(levels, prints[pass.level]!, printMats[pass.level]!, map, pass);
		map = { ...map, field: fitField(measured, width, height, pass.softPx).field };
	}
	const page = remap(levels, map, 1);
	const lifted = lift(page, prints[0]!, printMats[0]!, sigmaPx, black);
	page.delete();
	return lifted;
}

const TILE_PX = 64;
const MARGIN_PX = 12;
const ROUNDS = 8;

/** Share of the light that ink lets pass, sharpened in the tiles that have any, laid on the print. */
function lift(seenPage: Mat, print: GreyImage, printMat: Mat, sigmaPx: number, black: number): GreyImage {
	// Flare is the same all over: greys below it there are none.
	const page = new cv.Mat();
	seenPage.convertTo(page, -1, 1, -black);
	const size = new cv.Size(page.cols, page.rows);
	const [soft, small, closed, light, bare] = Array.from({ length: 5 }, () => new cv.Mat()) as [Mat, Mat, Mat, Mat, Mat];
	cv.GaussianBlur(printMat, soft, new cv.Size(0, 0), sigmaPx);
	// Paper: the lightest of each square of 8 pixels, closed over 7 squares.
	const lightestKernel = cv.Mat.ones(8, 8, numbers.CV_8U);
	cv.dilate(page, light, lightestKernel);
	cv.resize(light, small, new cv.Size(page.cols >> 3, page.rows >> 3), 0, 0, numbers.INTER_NEAREST);
	const kernel = cv.Mat.ones(7, 7, numbers.CV_8U);
	cv.morphologyEx(small, closed, numbers.MORPH_CLOSE, kernel);
	cv.resize(closed, bare, size, 0, 0, numbers.INTER_LINEAR);
	const [expected, passed, inked] = Array.from({ length: 3 }, () => new cv.Mat()) as [Mat, Mat, Mat];
	cv.multiply(bare, soft, expected, 1 / lightest(print), numbers.CV_32F);
	cv.divide(page, expected, passed, 1, numbers.CV_32F);
	// Under dark print nothing is seen, and what takes little light is grain.
	const [hidden, grain] = [new cv.Mat(), new cv.Mat()];
	cv.threshold(soft, hidden, 0.4 * lightest(print), 255, numbers.THRESH_BINARY_INV);
	passed.setTo(new cv.Scalar(1), hidden);
	cv.threshold(passed, grain, 0.85, 255, numbers.THRESH_BINARY);
	grain.convertTo(hidden, numbers.CV_8U);
	passed.setTo(new cv.Scalar(1), hidden);
	cv.threshold(passed, inked, 0.8, 1, numbers.THRESH_BINARY_INV);
	const data = print.data.slice();
	for (let top = MARGIN_PX; top + TILE_PX + MARGIN_PX < page.rows; top += TILE_PX)
		for (let left = MARGIN_PX; left + TILE_PX + MARGIN_PX < page.cols; left += TILE_PX) {
			const own = inked.roi(new cv.Rect(left, top, TILE_PX, TILE_PX));
			const count = cv.countNonZero(own);
			own.delete();
			if (count < 12) continue;
			const side = TILE_PX + 2 * MARGIN_PX;
			const seen = passed.roi(new cv.Rect(left - MARGIN_PX, top - MARGIN_PX, side, side));
			const now = seen.clone();
			const [again, missing] = [new cv.Mat(), new cv.Mat()];
			for (let round = 0; round < ROUNDS; round++) {
				cv.GaussianBlur(now, again, new cv.Size(0, 0), sigmaPx);
				cv.subtract(seen, again, missing);
				cv.addWeighted(now, 1, missing, 1.7, 0, now);
			}
			for (let y = 0; y < TILE_PX; y++)
				for (let x = 0; x < TILE_PX; x++) {
					const share = now.data32F[(y + MARGIN_PX) * side + x + MARGIN_PX]!;
					const at = (top + y) * page.cols + left + x;
					if (share < 0.94) data[at] = Math.max(0, data[at]! * share);
				}
			for (const mat of [seen, now, again, missing]) mat.delete();
		}
	for (const mat of [
		soft,
		small,
		closed,
		light,
		bare,
		lightestKernel,
		kernel,
		expected,
		passed,
		inked,
		page,
		hidden,
		grain
	])
		mat.delete();
	return { width: print.width, height: print.height, data };
}

/** Where our own alignment says that places of the page are in the photo. */
export function placesOf(
	levels: readonly GreyImage[],
	prints: readonly GreyImage[],
	view: Homography
): { readonly from: readonly Point[]; readonly to: readonly Point[] } {
	const { map } = alignPrint(levels, prints, view);
	const from = Array.from({ length: 12 * 16 }, (_, i) => ({
		x: (((i % 12) + 0.5) * map.widthPx) / 12,
		y: ((Math.floor(i / 12) + 0.5) * map.heightPx) / 16
	}));
	const to = from.map(({ x, y }) => {
		const [dx, dy] = shiftAt(map.field, x, y);
		return project(view, x + dx, y + dy);
	});
	return { from, to };
}
