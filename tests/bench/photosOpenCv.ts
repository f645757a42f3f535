import { performance } from 'node:perf_hooks';
import '../../src/core/layout/font/bundled';
import { decodeCode } from '../../src/codes/decodeCode';
import type { Point } from '../../src/core/geometry';
import { PX_PER_PT, type GreyImage } from '../../src/core/image';
import { findCode } from '../../src/core/photo/findCode';
import { findSigns } from '../../src/core/photo/findSigns';
import { flattenPhoto } from '../../src/core/photo/flattenPhoto';
import { homographyOf, project, type Homography } from '../../src/core/photo/homography';
import { flatField, rectify } from '../../src/core/photo/pageMap';
import { pyramidOf } from '../../src/core/photo/shrink';
import { cornersOf } from '../../src/core/sheet/signs';
import { shotOf } from '../support/camera';
import {
	cv,
	findHomography,
	halvesOf,
	imageOf,
	layAndLift,
	matOf,
	matsOf,
	numbers,
	placesOf,
	warp
} from '../support/openCv';
import { context, largePhoto, layout, markedSheet, readFlat, shoot } from '../support/photoCase';
import { quantile } from './timing';

/**
 * A second opinion by OpenCV on `--count N` photos (default 50) of sheets that lie flat: the homography and what is left of it,
 * where the corner marks are, and the threshold between paper and print. Then the time of the same steps on a photo of 12
 * megapixels, ours and OpenCV's by turns.
 */
const LIMITS = {
	/** Pixels of the photo: what the two homographies through the same 192 places leave, as the root of the mean square. */
	residualPx: 0.02,
	/** Pixels of the photo: how far the two homographies are apart, anywhere on the page. */
	apartPx: 0.3,
	/** Pixels of the 200 dpi page: where OpenCV's template matching finds the corner marks that ours says are in place. */
	cornerPx: 0.5,
	/** Greys: N. Otsu's threshold of the page as drawn by ours and by OpenCV. */
	otsu: 2,
	/** Share of targets that OpenCV's adaptive threshold plainly contradicts. */
	against: 0.01
};
/** Shares of a target's inside that are ink: less than the first by one and more than the second by the other is a contradiction. */
const PLAIN = { empty: 0.05, dark: 0.35 };

const flag = process.argv.indexOf('--count');
const count = flag > 0 ? Number(process.argv[flag + 1]) : 50;
const worst = { residualPx: 0, apartPx: 0, cornerPx: 0, otsu: 0 };
let [photos, targets, against, plain] = [0, 0, 0, 0];

for (let seed = 1; photos < count; seed += 1) {
	const sheet = markedSheet(seed);
	const photo = shoot(sheet, { ...shotOf(seed), curlX: 0, curlY: 0, crease: 0, dpi: 155 + (seed % 40) }, 80);
	const seen = lookAt(photo, sheet.page);
	if (!seen) continue;
	photos += 1;
	const { levels, prints, view } = seen;
	const [print] = prints as readonly [GreyImage];

	const { from, to } = placesOf(levels, prints, view);
	const ours = homographyOf(from, to)!;
	const theirs = findHomography(from, to);
	raise('residualPx', Math.abs(leftBy(ours, from, to) - leftBy(theirs, from, to)));
	raise('apartPx', Math.max(...from.map(({ x, y }) => apart(project(ours, x, y), project(theirs, x, y)))));

	const mat = matOf(photo);
	const drawn = warp(mat, view, print.width, print.height);
	const printMat = matOf(print);
	for (const corner of cornersOf({ widthPt: print.width / PX_PER_PT, heightPt: print.height / PX_PER_PT }))
		raise('cornerPx', offIn(drawn, printMat, corner));

	const map = { widthPx: print.width, heightPx: print.height, view, field: flatField(print.width, print.height) };
	const own = matOf(rectify([photo], map, 1));
	raise('otsu', Math.abs(otsuOf(own) - otsuOf(drawn)));

	const result = flattenPhoto(photo, context);
	if (!('refused' in result)) {
		const dark = new cv.Mat();
		const calm = new cv.Mat();
		cv.GaussianBlur(drawn, calm, new cv.Size(0, 0), 1);
		cv.adaptiveThreshold(calm, dark, 1, numbers.ADAPTIVE_THRESH_MEAN_C, numbers.THRESH_BINARY_INV, 101, 12);
		calm.delete();
		const inked = imageOf(dark);
		dark.delete();
		const { choices } = layout.pages[sheet.page - 1]!;
		readFlat(result.page, sheet.page).targets.forEach(({ fill }, i) => {
			const share = shareIn(inked, choices[i]!.target);
			targets += 1;
			if (share < PLAIN.empty || share > PLAIN.dark) plain += 1;
			if ((fill > PLAIN.dark && share < PLAIN.empty) || (fill < PLAIN.empty && share > PLAIN.dark)) against += 1;
		});
	}
	for (const one of [mat, drawn, printMat, own]) one.delete();
}

const isWithin =
	(Object.keys(worst) as (keyof typeof worst)[]).every((name) => worst[name] <= LIMITS[name]) &&
	against <= LIMITS.against * targets;
process.stdout.write(
	`${photos} photos, ours and OpenCV's, at most apart: residual of the homography ${worst.residualPx.toFixed(4)} px (limit ${LIMITS.residualPx}), ` +
		`homography anywhere on the page ${worst.apartPx.toFixed(3)} px (${LIMITS.apartPx}), corner marks ${worst.cornerPx.toFixed(2)} px of the page (${LIMITS.cornerPx}), ` +
		`Otsu's threshold ${worst.otsu} greys (${LIMITS.otsu})\n` +
		`${targets} targets, ${plain} of them plain by OpenCV's adaptive threshold: ${against} with ink by one and without by the other (limit ${(100 * LIMITS.against).toFixed(0)} %)\n` +
		`${isWithin ? 'PASS' : 'FAIL'}\n`
);
if (!isWithin) process.exitCode = 1;

/** The same steps on a large photo, by turns so that both meet the same load. */
const sheet = markedSheet(7);
const large = largePhoto(sheet);
const { page } = sheet;
const { prints } = context.sheetOf({ ...codeOf(large), page })!;
const printMats = matsOf(prints);
const [oursMs, theirsMs]: [number[], number[]] = [[], []];
/** Blur and black of this photo as ours finds them; OpenCV is spared that. */
const BLUR = { sigmaPx: 0.87, black: 20 };
let same = 0;
for (let round = 0; round < 6; round += 1) {
	const began = performance.now();
	const result = flattenPhoto(large, context);
	const own = 'refused' in result ? undefined : readFlat(result.page, page);
	const between = performance.now();
	const levels = halvesOf(large, 200);
	const half = imageOf(levels[1]!);
	const code = decodeCode(half)!;
	const corners = code.corners.map(({ x, y }) => ({ x: 2 * x, y: 2 * y }));
	// OpenCV has nothing that finds a mark from a code's corners: both go through the same search.
	const signs = findSigns([large, half], prints, corners);
	if (!('signs' in signs)) throw new Error('photosOpenCv: expected the corner marks of the large photo, got none');
	const other = readFlat(layAndLift(levels, prints, printMats, signs.signs.view, BLUR), page);
	for (const level of levels) level.delete();
	const ended = performance.now();
	same = own ? own.targets.filter(({ level }, i) => other.targets[i]!.level === level).length : 0;
	if (round === 0) continue;
	oursMs.push(between - began);
	theirsMs.push(ended - between);
}
const [a, b] = [quantile(oursMs, 0.5), quantile(theirsMs, 0.5)];
process.stdout.write(
	`${((large.width * large.height) / 1e6).toFixed(1)} megapixels, from grey to readings: ours median ${a.toFixed(0)} ms, with OpenCV ${b.toFixed(0)} ms, ratio ${(a / b).toFixed(2)} (limit 1): ${a <= b ? 'PASS' : 'FAIL'}; ` +
		`${same} of ${layout.pages[page - 1]!.choices.length} targets read the same\n`
);

function raise(name: keyof typeof worst, value: number): void {
	worst[name] = Math.max(worst[name], value);
}

function codeOf(photo: GreyImage) {
	const result = flattenPhoto(photo, context);
	if (!result.code) throw new Error('photosOpenCv: expected the code of a photo of ours, got none');
	return result.code;
}

function lookAt(photo: GreyImage, pageNumber: number) {
	const levels = pyramidOf(photo, 200);
	const found = findCode(photo, decodeCode, levels);
	if (found?.text === undefined) return undefined;
	const sheet = context.sheetOf({ ...codeOf(photo), page: pageNumber });
	const signs = sheet && findSigns(levels, sheet.prints, found.corners);
	return signs && 'signs' in signs ? { levels, prints: sheet.prints, view: signs.signs.view } : undefined;
}

function leftBy(view: Homography, from: readonly Point[], to: readonly Point[]): number {
	const squares = from.map(({ x, y }, i) => apart(project(view, x, y), to[i]!) ** 2);
	return Math.sqrt(squares.reduce((sum, one) => sum + one, 0) / squares.length);
}

function apart(one: Point, other: Point): number {
	return Math.hypot(one.x - other.x, one.y - other.y);
}

/** How far from its place OpenCV finds a corner mark in the page it drew, in pixels. */
function offIn(drawn: ReturnType<typeof matOf>, print: ReturnType<typeof matOf>, corner: Point): number {
	const [side, reach] = [56, 6];
	const [left, top] = [Math.round(corner.x * PX_PER_PT - side / 2), Math.round(corner.y * PX_PER_PT - side / 2)];
	const mark = print.roi(new cv.Rect(left, top, side, side));
	const around = drawn.roi(new cv.Rect(left - reach, top - reach, side + 2 * reach, side + 2 * reach));
	const scores = new cv.Mat();
	cv.matchTemplate(around, mark, scores, numbers.TM_CCOEFF_NORMED);
	const { maxLoc } = (cv.minMaxLoc as unknown as (mat: unknown) => { maxLoc: Point })(scores);
	const at = (dx: number, dy: number) => scores.data32F[(maxLoc.y + dy) * (2 * reach + 1) + maxLoc.x + dx]!;
	const peak = (before: number, here: number, after: number) => (after - before) / (2 * (2 * here - before - after));
	const off = {
		x: maxLoc.x - reach + peak(at(-1, 0), at(0, 0), at(1, 0)),
		y: maxLoc.y - reach + peak(at(0, -1), at(0, 0), at(0, 1))
	};
	for (const mat of [mark, around, scores]) mat.delete();
	return Math.hypot(off.x, off.y);
}

function otsuOf(mat: ReturnType<typeof matOf>): number {
	const result = new cv.Mat();
	const threshold = cv.threshold(mat, result, 0, 255, numbers.THRESH_BINARY | numbers.THRESH_OTSU);
	result.delete();
	return threshold;
}

/** Share of a target's inside, well away from its outline, that is dark. */
function shareIn({ width, data }: GreyImage, box: { x: number; y: number; width: number; height: number }): number {
	const [cx, cy] = [(box.x + box.width / 2) * PX_PER_PT, (box.y + box.height / 2) * PX_PER_PT];
	const [rx, ry] = [(box.width / 2) * PX_PER_PT - 5, (box.height / 2) * PX_PER_PT - 5];
	let [dark, all] = [0, 0];
	for (let y = Math.ceil(cy - ry); y <= cy + ry; y++)
		for (let x = Math.ceil(cx - rx); x <= cx + rx; x++) {
			if (((x - cx) / rx) ** 2 + ((y - cy) / ry) ** 2 > 1) continue;
			all += 1;
			dark += data[y * width + x]!;
		}
	return all === 0 ? 0 : dark / all;
}
