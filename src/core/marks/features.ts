import { PX_PER_MM } from '../image';
import { once } from '../once';
import type { Component } from './components';
import { holesOf, hullArea } from './outline';
import { penStrokes } from './penStrokes';
import { shapeOf, type Shape } from './shape';
import { skeletonOf, type Skeleton } from './skeleton';
import { strokeForm, type StrokeForm } from './strokeForm';

/** What the form of one mark is measured by. Lengths in millimetres. */
export interface Features {
	readonly shape: Shape;
	readonly widthMm: number;
	readonly heightMm: number;
	/** Area of the ink, in square millimetres. */
	readonly areaMm2: number;
	/** Width of the line it is drawn with: the middle value along its skeleton. */
	readonly penMm: number;
	/** Across the thickest place. */
	readonly thickestMm: number;
	/** Length of all its lines. */
	readonly lengthMm: number;
	/** Area over the area of its convex hull. */
	readonly solidity: number;
	/** Length over breadth of the ink as a whole: 1 for round forms, 5 and more for lines. */
	readonly elongation: number;
	/** Pieces as high as a fair part of the whole. */
	readonly pieces: number;
	/** How many loops it has, and the largest one's area over that of the box. */
	readonly holes: number;
	readonly holeShare: number;
	/** Share of directions from its middle in which there is ink far out, and share of ink that lies near the middle. */
	readonly roundShare: number;
	readonly innerShare: number;
	/** Longest first. */
	readonly strokes: readonly StrokeForm[];
	/** Mean darkness of the ink, 0 to 1, and what a tenth of it exceeds. */
	readonly darkness: number;
	readonly peak: number;
}

/**
 * Measures the form of a mark made of `components`. Its lines, its loops and how round it is cost most, and a plain fill
 * is told without them: they are measured when they are first asked for.
 */
export function featuresOf(components: readonly Component[]): Features {
	const shape = shapeOf(components);
	const mmPerPx = shape.scale / PX_PER_MM;
	const inkCount = components.reduce((sum, c) => sum + c.inkCount, 0);
	const lines = once(() => linesOf(shape, mmPerPx));
	const holes = once(() => holesOf(shape));
	const roundness = once(() => roundnessOf(shape));
	return {
		shape,
		widthMm: (shape.width - 2) * mmPerPx,
		heightMm: (shape.height - 2) * mmPerPx,
		areaMm2: shape.area * mmPerPx * mmPerPx,
		get penMm() {
			return lines().penMm;
		},
		get thickestMm() {
			return lines().thickestMm;
		},
		get lengthMm() {
			return lines().lengthMm;
		},
		solidity: shape.area / Math.max(shape.area, hullArea(shape)),
		elongation: elongationOf(shape),
		pieces: components.filter(({ top, bottom }) => bottom - top >= PIECE_SHARE * (shape.height - 2) * shape.scale)
			.length,
		get holes() {
			return holes().count;
		},
		get holeShare() {
			return holes().largest / ((shape.width - 2) * (shape.height - 2));
		},
		get roundShare() {
			return roundness().roundShare;
		},
		get innerShare() {
			return roundness().innerShare;
		},
		get strokes() {
			return lines().strokes;
		},
		darkness: components.reduce((sum, c) => sum + c.mass, 0) / Math.max(1, inkCount) / 255,
		peak: Math.max(...components.map((c) => c.peak)) / 255
	};
}

/** The lines of a shape as a pen drew them, longest first, and how wide they are. */
function linesOf(shape: Shape, mmPerPx: number): Pick<Features, 'penMm' | 'thickestMm' | 'lengthMm' | 'strokes'> {
	const skeleton = skeletonOf(shape);
	const { pen, thickest } = widthsOf(shape, skeleton);
	const strokes = penStrokes(shape, skeleton, pen)
		.map((line) => strokeForm(line, pen, mmPerPx))
		.sort((a, b) => b.lengthMm - a.lengthMm);
	return {
		penMm: pen * mmPerPx,
		thickestMm: thickest * mmPerPx,
		lengthMm: strokes.reduce((sum, { lengthMm }) => sum + lengthMm, 0),
		strokes
	};
}

/** Width of the line and of the thickest place, in pixels of the shape. */
function widthsOf({ bits }: Shape, { bits: middle, depths }: Skeleton): { pen: number; thickest: number } {
	const widths: number[] = [];
	let thickest = 0;
	for (let at = 0; at < bits.length; at++) {
		const depth = depths[at] as number;
		if (depth > thickest) thickest = depth;
		if (middle[at] === 1) widths.push(2 * depth - 1);
	}
	widths.sort((a, b) => a - b);
	return { pen: widths[widths.length >> 1] ?? 1, thickest: 2 * thickest - 1 };
}

/** Dots over letters and specks are lower than this share of the whole. */
const PIECE_SHARE = 0.3;

/** Ratio of the standard deviations along the two principal axes. */
function elongationOf({ width, height, bits, area }: Shape): number {
	let [sumX, sumY, sumXX, sumYY, sumXY] = [0, 0, 0, 0, 0];
	for (let y = 1; y < height - 1; y++)
		for (let x = 1; x < width - 1; x++) {
			if (bits[y * width + x] === 0) continue;
			sumX += x;
			sumY += y;
			sumXX += x * x;
			sumYY += y * y;
			sumXY += x * y;
		}
	const n = Math.max(1, area);
	// A pixel is a square: a twelfth keeps a line one pixel wide from being infinitely thin.
	const xx = sumXX / n - (sumX / n) ** 2 + 1 / 12;
	const yy = sumYY / n - (sumY / n) ** 2 + 1 / 12;
	const xy = sumXY / n - (sumX * sumY) / (n * n);
	const middle = (xx + yy) / 2;
	const apart = Math.sqrt(((xx - yy) / 2) ** 2 + xy * xy);
	return Math.sqrt((middle + apart) / Math.max(1 / 12, middle - apart));
}

const DIRECTIONS = 48;

/** A pixel this far out, as a share of the way to the box's edge, lies on a ring; one nearer than INNER in its middle. */
const OUTER = 0.6;
const INNER = 0.45;

function roundnessOf({ width, height, bits, area }: Shape): { roundShare: number; innerShare: number } {
	const halfWidth = (width - 2) / 2;
	const halfHeight = (height - 2) / 2;
	const seen = new Uint8Array(DIRECTIONS);
	let inner = 0;
	for (let y = 1; y < height - 1; y++)
		for (let x = 1; x < width - 1; x++) {
			if (bits[y * width + x] === 0) continue;
			const dx = (x - 0.5 - halfWidth) / halfWidth;
			const dy = (y - 0.5 - halfHeight) / halfHeight;
			const far = Math.hypot(dx, dy);
			if (far < INNER) inner += 1;
			if (far < OUTER) continue;
			seen[Math.floor(((Math.atan2(dy, dx) / Math.PI + 1) / 2) * DIRECTIONS) % DIRECTIONS] = 1;
		}
	return { roundShare: seen.reduce((sum, one) => sum + one, 0) / DIRECTIONS, innerShare: inner / Math.max(1, area) };
}
