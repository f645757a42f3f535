import { PX_PER_MM, PX_PER_PT, type PixelBox } from '../image';
import type { Mishap } from '../ink/stroke';
import { grainAt } from '../random';
import { copyPlane, darken, rowsWithin, type InkLayers } from './inkLayers';
import { PLANES } from './inkTools';

/** Half the width of what a finger drags over, in millimetres. */
const FINGER_MM = 3.2;

/** How much of each ink comes along: graphite most, felt-tip least. Found by trial. */
const COMES_ALONG: readonly (readonly [plane: number, share: number])[] = [
	[PLANES.pencil, 0.42],
	[PLANES.ballpoint, 0.32],
	[PLANES.felt, 0.26]
];

/** Distance between two samples along the drag, in pixels. */
const SAMPLE_PX = 1.5;

/** Ink is carried at most so far, in millimetres. Found by trial. */
const CARRIED_MM = 11;

/** A finger dragged over ink: from each inked spot a trail that fades in the direction of the drag. */
export function drawSmudge(layers: InkLayers, smudge: Extract<Mishap, { kind: 'smudge' }>, seed: number): void {
	const [x0, y0] = [smudge.x * PX_PER_PT, smudge.y * PX_PER_PT];
	const [dx, dy] = [smudge.dx * PX_PER_PT, smudge.dy * PX_PER_PT];
	const length = Math.sqrt(dx * dx + dy * dy);
	if (length === 0) return;
	const [alongX, alongY] = [dx / length, dy / length];
	const radius = FINGER_MM * PX_PER_MM;
	const carried = CARRIED_MM * PX_PER_MM;
	const box = smudgeBox(x0, y0, dx, dy);
	const ink = inkIn(layers, box);
	rowsWithin(layers, box.xPx, box.yPx, box.xPx + box.widthPx, box.yPx + box.heightPx, (y, left, right) => {
		for (let x = left; x < right; x++) {
			const offX = x + 0.5 - x0;
			const offY = y + 0.5 - y0;
			const along = offX * alongX + offY * alongY;
			const aside = offX * alongY - offY * alongX;
			const past = along < 0 ? along : along > length ? along - length : 0;
			const press = 1 - (aside * aside + past * past) / (radius * radius);
			if (press <= 0) continue;
			// Streaks: neighbouring trails start a little aside of where they should.
			const streak = 2.4 * (grainAt(Math.round(aside), Math.floor(along / 40), seed + 21) - 0.5);
			const reach = Math.min(carried, along + radius);
			let most = 0;
			for (let back = SAMPLE_PX; back < reach; back += SAMPLE_PX) {
				const column = Math.floor(x + 0.5 - alongX * back + alongY * streak) - box.xPx;
				const row = Math.floor(y + 0.5 - alongY * back - alongX * streak) - box.yPx;
				if (column < 0 || row < 0 || column >= box.widthPx || row >= box.heightPx) continue;
				const fade = 1 - back / carried;
				const comes = (ink[row * box.widthPx + column] ?? 0) * fade * fade;
				if (comes > most) most = comes;
			}
			if (most > 0) darken(layers, x, y, most * Math.min(1, 1.5 * press) * (0.75 + 0.5 * grainAt(x, y, seed + 22)));
		}
	});
}

/** All that a smudge reads and writes, in pixels on the page. */
export function smudgeBox(x: number, y: number, dx: number, dy: number): PixelBox {
	const radius = FINGER_MM * PX_PER_MM + 1;
	const xPx = Math.floor(Math.min(x, x + dx) - radius);
	const yPx = Math.floor(Math.min(y, y + dy) - radius);
	const widthPx = Math.ceil(Math.max(x, x + dx) + radius) - xPx;
	const heightPx = Math.ceil(Math.max(y, y + dy) + radius) - yPx;
	return { xPx, yPx, widthPx, heightPx };
}

/** Ink that can be carried, pixel by pixel in the box. */
function inkIn(layers: InkLayers, box: PixelBox): Float32Array {
	const sum = new Float32Array(box.widthPx * box.heightPx);
	for (const [plane, share] of COMES_ALONG) {
		const ink = copyPlane(layers, plane, box);
		for (let i = 0; i < sum.length; i++) sum[i] = Math.max(sum[i] ?? 0, share * (ink[i] ?? 0));
	}
	return sum;
}
