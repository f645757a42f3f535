import type { TargetShape } from '../election/election';
import type { Box } from '../geometry';
import { PX_PER_MM, PX_PER_PT } from '../image';
import { OUTLINE_WIDTH_PT, ARROW_HEAD_PT, ARROW_TAIL_PT } from '../layout/targetOutline';
import type { TargetLevel } from './mark';
import { darknessAt, type Residual } from './residual';

/** Width of the line that must always be found: VVSG 2.0, 1.1.6-H. */
const REQUIRED_LINE_MM = 1;

/**
 * Score of the required line where it is as dark as FULL_DARKNESS. Between 0.55 (the demo election’s threshold for
 * `dark`) and 1, so that a fold half as wide and just as dark stays under the threshold. Found by trial.
 */
const REQUIRED_LINE_SCORE = 0.72;

/** Share of the light taken at which ink starts to be ink, and from which it is as good as black. Found by trial. */
const LEAST_DARKNESS = 0.08;
const FULL_DARKNESS = 0.58;

/** A pixel of a target is ink from this share of the light taken; a ramp keeps grain from deciding. Found by trial. */
const INK_FROM = 0.07;
const INK_FULL = 0.2;

/** A mark that is longer than this share of the target's shorter side is no dot. Found by trial. */
const LONG_SHARE = 0.8;

/** In a broken arrow's gap, ink along this share of its length begins to join it; along all of it, the score doubles and more. */
const JOIN_FROM = 0.55;
const JOIN_GAIN = 1.1;

/** A line that runs on this far past both ends of an arrow is a crease, not a pen's. */
const CREASE_PAST_MM = 2;

const CREASE_PAST_PX = Math.round(CREASE_PAST_MM * PX_PER_MM);
/** From an arrow's gap to where a pen that joined it has no business, in pixels. */
const ARROW_ENDS_PX = Math.ceil((Math.max(ARROW_TAIL_PT, ARROW_HEAD_PT) + 1) * PX_PER_PT);

/** How far to the left and right of a target its measure looks, in pixels. */
export const looksBesidePx = (shape: TargetShape): number => (shape === 'arrow' ? ARROW_ENDS_PX + CREASE_PAST_PX : 0);

/** What was measured in one target. */
export interface TargetMeasure {
	readonly fill: number;
	readonly darkness: number;
	readonly score: number;
}

/**
 * Measures the ink inside one target.
 *
 * - `fill`: share of the target's inside that is ink. The printed outline and half a pixel beside it are
 *   left out, so a clean target gives 0.
 * - `darkness`: share of the paper's light that this ink takes, averaged with the ink itself as weight,
 *   so that pale edges of a dark stroke weigh little.
 * - `score` = min(1, 0.72 x L x R) x D, each from 0 to 1 but L:
 *   L = `fill` / the fill of a line 1 mm wide along the target's long axis (the mark that VVSG 2.0, 1.1.6-H
 *   says must always be found), which scales it to the target's size;
 *   R = the longest reach of the ink / 0.8 of the target's shorter side, 1 at most: small for a dot;
 *   D = (`darkness` - 0.08) / 0.5, 1 at most: small for a fold, a stain or a faint pen.
 *   In the gap of a broken arrow, L grows with the share of the gap's length J along which there is ink:
 *   times 1 + 1.1 x (J - 0.55) / 0.45 from J = 0.55 on, unless the line runs past both ends of the arrow.
 */
export function measureTarget(residual: Residual, shape: TargetShape, target: Box): TargetMeasure {
	const inside = insideOf(shape, target);
	const { left, top, right, bottom } = inside;
	const columns = new Uint8Array(Math.max(0, right - left));
	let seen = 0;
	let ink = 0;
	let mass = 0;
	let squares = 0;
	let [minX, maxX, minY, maxY] = [right, left, bottom, top];
	for (let y = top; y < bottom; y++) {
		const [from, to] = rowOf(inside, y);
		for (let x = from; x < to; x++) {
			const dark = darknessAt(residual, x, y);
			if (dark < 0) continue;
			seen += 1;
			if (dark <= INK_FROM) continue;
			const share = dark >= INK_FULL ? 1 : (dark - INK_FROM) / (INK_FULL - INK_FROM);
			ink += share;
			mass += dark * share;
			squares += dark * dark * share;
			if (share < 0.5) continue;
			columns[x - left] = 1;
			if (x < minX) minX = x;
			if (x > maxX) maxX = x;
			if (y < minY) minY = y;
			if (y > maxY) maxY = y;
		}
	}
	if (ink === 0 || seen === 0) return { fill: 0, darkness: 0, score: 0 };
	const fill = ink / seen;
	const darkness = squares / mass;
	const width = right - left;
	const height = bottom - top;
	const lineFill = Math.min(1, lineArea(inside) / seen);
	const reach = Math.max(maxX - minX + 1, maxY - minY + 1, 0) / (LONG_SHARE * Math.min(width, height));
	const darkShare = clampOne((darkness - LEAST_DARKNESS) / (FULL_DARKNESS - LEAST_DARKNESS));
	let length = fill / lineFill;
	if (shape === 'arrow') {
		let covered = 0;
		for (const column of columns) covered += column;
		const joined = clampOne((covered / width - JOIN_FROM) / (1 - JOIN_FROM));
		if (joined > 0 && !runsPast(residual, target, minY, maxY)) length *= 1 + JOIN_GAIN * joined;
	}
	const score = Math.min(1, REQUIRED_LINE_SCORE * length * Math.min(1, reach)) * darkShare;
	return { fill, darkness, score };
}

/** The score split by the election's two thresholds. */
export function levelOf(score: number, thresholds: { readonly dark: number; readonly empty: number }): TargetLevel {
	return score >= thresholds.dark ? 'dark' : score < thresholds.empty ? 'empty' : 'unsure';
}

/** The pixels inside a target's outline, whole rows; an oval's by its ellipse. */
interface Inside {
	readonly oval: boolean;
	readonly left: number;
	readonly top: number;
	readonly right: number;
	readonly bottom: number;
	readonly middleX: number;
	readonly middleY: number;
	readonly halfWidth: number;
	readonly halfHeight: number;
}

function insideOf(shape: TargetShape, target: Box): Inside {
	const off = shape === 'arrow' ? 0 : OUTLINE_WIDTH_PT * PX_PER_PT + 0.5;
	const middleX = (target.x + target.width / 2) * PX_PER_PT;
	const middleY = (target.y + target.height / 2) * PX_PER_PT;
	const halfWidth = Math.max(0.5, (target.width * PX_PER_PT) / 2 - off);
	const halfHeight = Math.max(0.5, (target.height * PX_PER_PT) / 2 - off);
	return {
		oval: shape === 'oval',
		left: Math.round(middleX - halfWidth),
		top: Math.round(middleY - halfHeight),
		right: Math.round(middleX + halfWidth),
		bottom: Math.round(middleY + halfHeight),
		middleX,
		middleY,
		halfWidth,
		halfHeight
	};
}

/** First and one past the last column of a row. */
function rowOf(inside: Inside, y: number): readonly [number, number] {
	if (!inside.oval) return [inside.left, inside.right];
	const rise = (y + 0.5 - inside.middleY) / inside.halfHeight;
	if (rise <= -1 || rise >= 1) return [0, 0];
	const reach = inside.halfWidth * Math.sqrt(1 - rise * rise);
	return [Math.round(inside.middleX - reach), Math.round(inside.middleX + reach)];
}

/** Pixels of a line 1 mm wide through the inside along its long axis. */
function lineArea({ oval, halfWidth, halfHeight }: Inside): number {
	const long = Math.max(halfWidth, halfHeight);
	const short = Math.min(halfWidth, halfHeight);
	const half = Math.min(short, (REQUIRED_LINE_MM * PX_PER_MM) / 2);
	if (!oval) return 4 * half * long;
	// A band of half height h across an ellipse: 2·a·b·(asin(h/b) + (h/b)·sqrt(1 - (h/b)²)).
	const t = half / short;
	return 2 * long * short * (Math.asin(t) + t * Math.sqrt(1 - t * t));
}

/** Whether ink at the same height goes on beyond both outer ends of a broken arrow. */
function runsPast(residual: Residual, target: Box, minY: number, maxY: number): boolean {
	const left = Math.round(target.x * PX_PER_PT) - ARROW_ENDS_PX;
	const right = Math.round((target.x + target.width) * PX_PER_PT) + ARROW_ENDS_PX;
	const covered = (from: number) => {
		let count = 0;
		for (let x = from; x < from + CREASE_PAST_PX; x++) {
			for (let y = minY - 3; y <= maxY + 3; y++)
				if (darknessAt(residual, x, y) > INK_FROM) {
					count += 1;
					break;
				}
		}
		return count >= 0.8 * CREASE_PAST_PX;
	};
	return covered(left - CREASE_PAST_PX) && covered(right);
}

const clampOne = (value: number): number => Math.max(0, Math.min(1, value));
