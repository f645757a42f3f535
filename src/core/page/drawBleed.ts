import type { Stroke } from '../ink/stroke';
import { blotchAt } from './blotchAt';
import { darken, rowsWithin, type InkLayers } from './inkLayers';
import { coverageAt, strokeDepth } from './strokeDepth';
import { strokePath } from './strokePath';

/** Light that felt-tip takes when seen through the paper: grey 200 to 215 on white. Found by trial. */
const DENSITY = 0.18;

/** Half the width of the blurred edge, in pixels. Found by trial. */
const SOFT_PX = 2.6;

/** Size of the paper's thicker and thinner spots, in pixels. */
const CLOUD_PX = 6;

/** A stroke of the other side, seen through the paper, at the place where it shows on this side. */
export function drawBleed(layers: InkLayers, stroke: Stroke, originX: number, originY: number, seed: number): void {
	if (stroke.points.length === 0 || stroke.tool === 'eraser') return;
	const { xPx, yPx, widthPx, heightPx } = layers.window;
	const path = { ...strokePath(stroke, originX, originY, seed), softPx: SOFT_PX, marginPx: SOFT_PX };
	const depth = strokeDepth(path, { xPx: xPx - originX, yPx: yPx - originY, widthPx, heightPx });
	if (!depth) return;
	const { left, top, width, height, depths } = depth;
	const [pageX, pageY] = [left + originX, top + originY];
	rowsWithin(layers, pageX, pageY, pageX + width, pageY + height, (y, x0, x1) => {
		for (let x = x0; x < x1; x++) {
			const covered = coverageAt(depths[(y - pageY) * width + x - pageX] ?? 0, SOFT_PX);
			if (covered === 0) continue;
			const cloud = blotchAt((x - originX) / CLOUD_PX, (y - originY) / CLOUD_PX, seed + 31);
			darken(layers, x, y, DENSITY * covered * (0.8 + 0.3 * cloud));
		}
	});
}
