import type { PixelBox } from '../image';
import type { Stroke, Tool } from '../ink/stroke';
import { grainAt } from '../random';
import { TILE_PX, tileAt, tileIfAny, type InkLayers } from './inkLayers';
import { ERASER, ERASER_RESIDUE, INK_TOOLS, PLANE_COUNT } from './inkTools';
import { inkTexture, TEXTURE_MASK, TEXTURE_PX } from './inkTexture';
import { coverageAt, strokeDepth, type StrokeDepth } from './strokeDepth';
import { strokePath } from './strokePath';

/**
 * Draws one stroke into the layers, which it changes. `originX`, `originY`: the pixel on the page from
 * which positions and grain are counted, so that the same mark at another origin is the same mark.
 */
export function drawStroke(layers: InkLayers, stroke: Stroke, originX: number, originY: number, seed: number): void {
	if (stroke.points.length === 0) return;
	const { xPx, yPx, widthPx, heightPx } = layers.window;
	const window: PixelBox = { xPx: xPx - originX, yPx: yPx - originY, widthPx, heightPx };
	const path = strokePath(stroke, originX, originY, seed);
	const depth = strokeDepth(path, window);
	if (!depth) return;
	if (stroke.tool === 'eraser') rub(layers, depth, originX, originY, seed);
	else lay(layers, depth, stroke.tool, originX, originY, seed);
}

/** Lays ink of one tool where the stroke covers. */
function lay(
	layers: InkLayers,
	{ left, top, width, height, depths, strengths, starts, ends }: StrokeDepth,
	tool: Exclude<Tool, 'eraser'>,
	originX: number,
	originY: number,
	seed: number
): void {
	const { plane, density, softPx, roughPx, grainShare, buildUp } = INK_TOOLS[tool];
	const { grain, blotches } = inkTexture(tool, seed);
	const leastDepth = -softPx - roughPx / 2;
	const soft = tool === 'felt';
	const dry = tool === 'dry';
	for (let row = 0; row < height; row++) {
		const y = row + top;
		const pageY = y + originY;
		const end = ends[row] ?? 0;
		const grainRow = (y & TEXTURE_MASK) * TEXTURE_PX;
		let column = starts[row] ?? 0;
		while (column < end) {
			const pageX = column + left + originX;
			const tileLeft = Math.floor(pageX / TILE_PX) * TILE_PX;
			const stop = Math.min(end, column + tileLeft + TILE_PX - pageX);
			let tile: Float32Array | undefined;
			let at = (pageY % TILE_PX) * TILE_PX + pageX - tileLeft;
			for (; column < stop; column++, at++) {
				const depth = depths[row * width + column] ?? 0;
				if (depth <= leastDepth) continue;
				const spot = grainRow + ((column + left) & TEXTURE_MASK);
				const blotch = blotches[spot] ?? 0;
				let covered = (depth + roughPx * (blotch - 0.5) + softPx) / (2 * softPx);
				if (covered <= 0) continue;
				if (covered > 1) covered = 1;
				if (soft) covered *= covered * (3 - 2 * covered);
				const strength = Math.max(0, strengths[row * width + column] ?? 0);
				const tooth = grain[spot] ?? 0;
				let fresh = density * covered * strength * (1 - grainShare * tooth);
				// From a pen running dry, ink reaches fewer and fewer spots of the paper.
				if (dry) fresh *= coverageAt(strength - DRY_SPOTS * (0.65 * blotch + 0.35 * tooth), DRY_SPOT_SOFT);
				if (fresh <= 0) continue;
				if (fresh > 1) fresh = 1;
				tile ??= tileAt(layers, plane, pageX, pageY);
				const old = tile[at] ?? 0;
				const more = old > fresh ? old : fresh;
				const less = old > fresh ? fresh : old;
				tile[at] = more + buildUp * less * (1 - more);
			}
		}
	}
}

/** Pressure below which the emptiest spots stay white, and how sharply. Found by trial. */
const DRY_SPOTS = 0.75;
const DRY_SPOT_SOFT = 0.12;

/** Takes ink away under an eraser, as much as each kind of ink lets go. */
function rub(
	layers: InkLayers,
	{ left, top, width, height, depths, starts, ends }: StrokeDepth,
	originX: number,
	originY: number,
	seed: number
): void {
	for (let row = 0; row < height; row++) {
		const y = row + top;
		const pageY = y + originY;
		const end = ends[row] ?? 0;
		let column = starts[row] ?? 0;
		while (column < end) {
			const pageX = column + left + originX;
			const tileLeft = Math.floor(pageX / TILE_PX) * TILE_PX;
			const stop = Math.min(end, column + tileLeft + TILE_PX - pageX);
			const first = (pageY % TILE_PX) * TILE_PX + pageX - tileLeft - column;
			for (let plane = 0; plane < PLANE_COUNT; plane++) {
				const residue = ERASER_RESIDUE[plane] ?? 1;
				if (residue === 1) continue;
				const tile = tileIfAny(layers, plane, pageX, pageY);
				if (!tile) continue;
				for (let at = column; at < stop; at++) {
					const old = tile[first + at] ?? 0;
					if (old === 0) continue;
					const covered = coverageAt(depths[row * width + at] ?? 0, ERASER.softPx);
					if (covered === 0) continue;
					// Uneven, most where most comes off.
					const stays = residue * (1 + (1 - residue) * (grainAt(at + left, y, seed + 11) - 0.5));
					tile[first + at] = old * (1 - covered * (1 - stays));
				}
			}
			column = stop;
		}
	}
}
