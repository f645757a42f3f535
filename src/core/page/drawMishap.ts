import { PX_PER_PT, type PixelBox } from '../image';
import type { Mishap } from '../ink/stroke';
import { drawFold } from './drawFold';
import { drawSmudge, smudgeBox } from './drawSmudge';
import { drawStain } from './drawStain';
import type { InkLayers } from './inkLayers';

/**
 * Draws what happened to the sheet into the layers, which it changes. Stains, folds and smudges come
 * after all strokes; felt-tip from the other side is drawn as strokes are, see `drawBleed`.
 */
export function drawMishap(layers: InkLayers, mishap: Exclude<Mishap, { kind: 'bleed' }>, seed: number): void {
	for (const value of Object.values(mishap))
		if (typeof value === 'number' && !Number.isFinite(value))
			throw new RangeError(`drawMishap: expected finite numbers in a ${mishap.kind}, got ${value}; run checkInk first`);
	if (mishap.kind === 'stain') drawStain(layers, mishap, seed);
	else if (mishap.kind === 'fold') drawFold(layers, mishap, seed);
	else drawSmudge(layers, mishap, seed);
}

/** The part of the page whose ink a mishap moves into `window`: that ink must be drawn first. */
export function sourceOf(mishap: Mishap, window: PixelBox): PixelBox | undefined {
	if (mishap.kind !== 'smudge') return undefined;
	const box = smudgeBox(mishap.x * PX_PER_PT, mishap.y * PX_PER_PT, mishap.dx * PX_PER_PT, mishap.dy * PX_PER_PT);
	const apart =
		box.xPx >= window.xPx + window.widthPx ||
		box.xPx + box.widthPx <= window.xPx ||
		box.yPx >= window.yPx + window.heightPx ||
		box.yPx + box.heightPx <= window.yPx;
	return apart ? undefined : box;
}
