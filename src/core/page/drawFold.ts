import { PX_PER_MM, PX_PER_PT } from '../image';
import type { Mishap } from '../ink/stroke';
import { grainAt } from '../random';
import { blotchAt } from './blotchAt';
import { darken, rowsWithin, type InkLayers } from './inkLayers';

/** Width of a crease, in millimetres, from narrowest to widest. */
export const FOLD_MM = { least: 0.3, most: 0.5 } as const;

/** Light that a crease takes: grey 190 down to 150 on white paper. Found by trial. */
const PALEST = 0.24;
const DARKEST = 0.4;

/** Lengths over which width and darkness change, in pixels, and how far the crease strays sideways. Found by trial. */
const CHANGE_PX = 26;
const STRAY_PX = 0.8;

/** Where the noise falls below this share the crease hardly shows. */
const BREAK_SHARE = 0.2;

/** A crease across the whole page, 0.3 to 0.5 mm wide and slightly broken. */
export function drawFold(layers: InkLayers, { at, along }: Extract<Mishap, { kind: 'fold' }>, seed: number): void {
	const middle = at * PX_PER_PT;
	const room = (FOLD_MM.most * PX_PER_MM) / 2 + STRAY_PX + 1;
	const foldSeed = seed + Math.round(middle) * 31 + (along === 'x' ? 0 : 7);
	const { xPx, yPx, widthPx, heightPx } = layers.window;
	const draw = (x: number, y: number) => {
		const [s, across] = along === 'x' ? [x, y] : [y, x];
		const half = (FOLD_MM.least + (FOLD_MM.most - FOLD_MM.least) * blotchAt(s / CHANGE_PX, 0, foldSeed)) / 2;
		const stray = STRAY_PX * (2 * blotchAt(s / (4 * CHANGE_PX), 9, foldSeed) - 1);
		const covered = half * PX_PER_MM + 0.5 - Math.abs(across + 0.5 - middle - stray);
		if (covered <= 0) return;
		const shows = blotchAt(s / CHANGE_PX, 5, foldSeed);
		const broken = shows < BREAK_SHARE ? 0.35 + (0.65 * shows) / BREAK_SHARE : 1;
		const takes = PALEST + (DARKEST - PALEST) * (0.75 * shows + 0.25 * grainAt(x, y, foldSeed));
		darken(layers, x, y, Math.min(1, covered) * takes * broken);
	};
	const [left, top, right, bottom] =
		along === 'x'
			? [xPx, middle - room, xPx + widthPx, middle + room]
			: [middle - room, yPx, middle + room, yPx + heightPx];
	rowsWithin(layers, left, top, right, bottom, (y, x0, x1) => {
		for (let x = x0; x < x1; x++) draw(x, y);
	});
}
