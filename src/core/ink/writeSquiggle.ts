import type { Box } from '../geometry';
import { handStroke, type Hand } from './handStroke';
import type { Stroke } from './stroke';

/** Share of the line that the writing takes, and of it the gap between the two words. */
const LENGTH_SHARE = 0.72;
const GAP_SHARE = 0.09;

/** Width of one letter, in points. */
const LETTER_PT = 6.2;

/**
 * Two words on a write-in line that look written and say nothing: humps and loops that are no letters
 * in any order. `line`: the box for handwriting, in points.
 */
export function writeSquiggle(hand: Hand, line: Box): Stroke[] {
	const bodyPt = Math.min(5.5, line.height * 0.3);
	const baseline = line.y + line.height - Math.min(4, line.height * 0.2);
	const length = Math.min(150, line.width * LENGTH_SHARE);
	const firstShare = 0.38 + 0.08 * hand.random();
	const start = line.x + 4 + 3 * hand.random();
	const first = word(hand, start, length * firstShare, baseline, bodyPt);
	const second = word(
		hand,
		start + length * (firstShare + GAP_SHARE),
		length * (1 - firstShare - GAP_SHARE),
		baseline,
		bodyPt
	);
	return [...first, ...second];
}

function word(hand: Hand, x: number, length: number, baseline: number, bodyPt: number): Stroke[] {
	const { random } = hand;
	const letters = Math.max(2, Math.round(length / LETTER_PT));
	const step = length / letters;
	const way: [number, number][] = [];
	const dots: Stroke[] = [];
	const capital = 1.9 + 0.3 * random();
	// A tall first shape, then humps at the body's height with a few that reach up or down.
	way.push([x, baseline - bodyPt * capital * 0.7], [x + step * 0.35, baseline - bodyPt * capital]);
	way.push([x + step * 0.2, baseline], [x + step * 0.7, baseline - bodyPt * 0.5]);
	for (let letter = 1; letter < letters; letter++) {
		const left = x + step * letter;
		const height = bodyPt * (0.8 + 0.35 * random());
		const form = random();
		if (form < 0.16) {
			way.push([left + step * 0.55, baseline - height * 2]);
			way.push([left + step * 0.25, baseline - height * 1.7]);
			way.push([left + step * 0.3, baseline]);
		} else if (form < 0.28) {
			way.push([left + step * 0.3, baseline - height]);
			way.push([left + step * 0.35, baseline + height * 0.6]);
			way.push([left + step * 0.05, baseline + height * 0.5]);
			way.push([left + step * 0.6, baseline - height * 0.2]);
		} else if (form < 0.6) {
			way.push([left + step * 0.5, baseline - height]);
			way.push([left + step * 0.15, baseline - height * 0.7]);
			way.push([left + step * 0.3, baseline]);
		} else {
			way.push([left + step * 0.2, baseline - height]);
			way.push([left + step * 0.3, baseline]);
			way.push([left + step * 0.6, baseline - height * 0.9]);
			if (form > 0.9) dots.push({ tool: hand.tool, points: [[left + step * 0.35, baseline - height * 1.7, 0]] });
		}
		way.push([left + step * 0.85, baseline - height * 0.1]);
	}
	return [handStroke({ ...hand, wobblePt: 0.4, speedPtPerMs: 0.11 }, way), ...dots];
}
