import type { Box } from '../geometry';
import { handStroke, type Hand } from './handStroke';
import type { Stroke } from './stroke';

/** Lines of a hatch lie this share of the nib's width apart: a careful hand leaves few gaps. */
const PITCH_SHARE = 0.72;

/** The printed line around a target, in points: a hand stays about inside it. */
const OUTLINE_PT = 1;

/** Corners of the line first drawn around the inside. */
const ROUND_CORNERS = 20;

/**
 * Fills an oval or a box as a careful person does: once around inside its line, then to and fro; or
 * only about half of it, without the line around.
 */
export function fillTarget(
	hand: Hand,
	target: Box,
	shape: 'oval' | 'box',
	nibPt: number,
	extent: 'whole' | 'half'
): Stroke[] {
	const across = Math.max(0.5, target.width / 2 - OUTLINE_PT * 0.7 - nibPt / 2);
	const up = Math.max(0.4, target.height / 2 - OUTLINE_PT * 0.7 - nibPt / 2);
	const x = target.x + target.width / 2;
	const y = target.y + target.height / 2;
	/** Half the height of the inside at a distance from its middle. */
	const reach = (dx: number) => (shape === 'box' ? up : up * Math.sqrt(Math.max(0, 1 - (dx / across) ** 2)));
	const start = -across;
	const end = extent === 'whole' ? across : 0;
	const turns = Math.max(4, Math.ceil((end - start) / (nibPt * PITCH_SHARE)));
	const slant = 0.35 * Math.min(across, up);
	const hatch = handStroke(
		{ ...hand, wobblePt: 0.3, speedPtPerMs: 0.24 },
		Array.from({ length: turns + 1 }, (_, i) => {
			const away = start + ((end - start) * i) / turns;
			const sign = i % 2 === 0 ? 1 : -1;
			const dx = Math.max(-across, Math.min(across, away - sign * slant));
			return [x + dx, y + sign * reach(dx) * (0.92 + 0.14 * hand.random())];
		})
	);
	if (extent === 'half') return [hatch];
	const around = handStroke(
		{ ...hand, wobblePt: 0.25 },
		Array.from({ length: ROUND_CORNERS + 2 }, (_, i) => {
			const angle = -2.4 - (2 * Math.PI * i) / ROUND_CORNERS;
			return shape === 'box'
				? [x + across * clampOne(1.5 * Math.cos(angle)), y + up * clampOne(1.5 * Math.sin(angle))]
				: [x + across * Math.cos(angle), y + up * Math.sin(angle)];
		})
	);
	return [around, hatch];
}

const clampOne = (value: number): number => Math.max(-1, Math.min(1, value));
