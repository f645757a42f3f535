import type { PixelBox } from '../image';
import type { Stroke, Tool } from '../ink/stroke';
import { grainAt } from '../random';
import { TILE_PX, tileAt, tileIfAny, type InkLayers } from './inkLayers';
import { ERASER_RESIDUE, ERASER_SOFT_PX, INK_TOOLS, PLANE_COUNT } from './inkTools';
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
	const { plane, buildUp } = INK_TOOLS[tool];
	const takes = TEXTURES[tool];
	for (let row = 0; row < height; row++) {
		const y = row + top;
		const pageY = y + originY;
		const end = ends[row] ?? 0;
		let column = starts[row] ?? 0;
		while (column < end) {
			const pageX = column + left + originX;
			const tileLeft = Math.floor(pageX / TILE_PX) * TILE_PX;
			const stop = Math.min(end, column + tileLeft + TILE_PX - pageX);
			let tile: Float32Array | undefined;
			let at = (pageY % TILE_PX) * TILE_PX + pageX - tileLeft;
			for (; column < stop; column++, at++) {
				const depth = depths[row * width + column] ?? 0;
				if (depth < LEAST_DEPTH) continue;
				const fresh = takes(depth, strengths[row * width + column] ?? 0, column + left, y, seed);
				if (fresh <= 0) continue;
				tile ??= tileAt(layers, plane, pageX, pageY);
				const old = tile[at] ?? 0;
				const more = old > fresh ? old : fresh;
				const less = old > fresh ? fresh : old;
				tile[at] = more + buildUp * less * (1 - more);
			}
		}
	}
}

/** Below this no texture lets ink through. */
const LEAST_DEPTH = -2.2;

type Texture = (depth: number, strength: number, x: number, y: number, seed: number) => number;

/** Share of the light that each tool's ink takes at one pixel. The figures were found by trial. */
const TEXTURES: Readonly<Record<Exclude<Tool, 'eraser'>, Texture>> = {
	ballpoint(depth, strength, x, y, seed) {
		const { density, softPx } = INK_TOOLS.ballpoint;
		const covered = coverageAt(depth, softPx);
		return covered === 0 ? 0 : Math.min(1, density * covered * strength * (1 - 0.14 * grainAt(x, y, seed)));
	},
	pencil(depth, strength, x, y, seed) {
		const { density, softPx } = INK_TOOLS.pencil;
		if (depth < -softPx - 0.5) return 0;
		const tooth = 0.6 * blotch(x, y, 2.3, seed) + 0.4 * grainAt(x, y, seed);
		const covered = coverageAt(depth + 0.9 * (tooth - 0.5), softPx);
		return covered === 0 ? 0 : density * covered * Math.max(0, strength) * (1 - 0.5 * (1 - tooth));
	},
	felt(depth, _strength, x, y, seed) {
		const { density, softPx } = INK_TOOLS.felt;
		if (depth < -softPx - 0.4) return 0;
		const covered = coverageAt(depth + 0.7 * (blotch(x, y, 3.7, seed) - 0.5), softPx);
		return density * covered * covered * (3 - 2 * covered) * (1 - 0.02 * grainAt(x, y, seed));
	},
	faint(depth, strength, x, y, seed) {
		const { density, softPx } = INK_TOOLS.faint;
		const covered = coverageAt(depth, softPx);
		return covered === 0 ? 0 : density * covered * Math.max(0, strength) * (1 - 0.4 * grainAt(x, y, seed));
	},
	dry(depth, strength, x, y, seed) {
		const { density, softPx } = INK_TOOLS.dry;
		const covered = coverageAt(depth, softPx);
		if (covered === 0) return 0;
		const grain = grainAt(x, y, seed);
		// Ink reaches fewer and fewer spots of the paper, and less of it.
		const reaches = coverageAt(strength - 0.75 * (0.65 * blotch(x, y, 2.6, seed + 7) + 0.35 * grain), 0.12);
		return Math.min(1, density * covered * reaches * (0.35 + 0.65 * Math.max(0, strength)) * (1 - 0.14 * grain));
	}
};

/** Smooth noise from 0 to 1 with blotches of about `sizePx`. */
function blotch(x: number, y: number, sizePx: number, seed: number): number {
	const column = Math.floor(x / sizePx);
	const row = Math.floor(y / sizePx);
	const u = x / sizePx - column;
	const v = y / sizePx - row;
	const a = grainAt(column, row, seed + 3);
	const b = grainAt(column + 1, row, seed + 3);
	const c = grainAt(column, row + 1, seed + 3);
	const d = grainAt(column + 1, row + 1, seed + 3);
	return (a + (b - a) * u) * (1 - v) + (c + (d - c) * u) * v;
}

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
					const covered = coverageAt(depths[row * width + at] ?? 0, ERASER_SOFT_PX);
					if (covered === 0) continue;
					const left01 = Math.min(1, residue * (0.7 + 0.6 * grainAt(at + left, y, seed + 11)));
					tile[first + at] = old * (1 - covered * (1 - left01));
				}
			}
			column = stop;
		}
	}
}
