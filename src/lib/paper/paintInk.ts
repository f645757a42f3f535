import { PT_PER_MM } from '$core/image';
import type { Box } from '$core/geometry';
import { NIB_MM, type Mishap, type PageInk, type Stroke, type StrokePoint, type Tool } from '$core/ink/stroke';
import { ERASER_RESIDUE, INK_TOOLS } from '$core/page/inkTools';
import { grainAt } from '$core/random';

/*
 * Ink for the eye only. Nothing here is ever read back or measured: the reader draws its own grey page
 * from the same strokes.
 */

type Wet = Exclude<Tool, 'eraser'>;

/** Colour and the range of cover of each ink. Chosen by eye beside photos of our own pens on paper. */
const INKS: Readonly<
	Record<Wet, { readonly rgb: readonly [number, number, number]; readonly cover: readonly [number, number] }>
> = {
	ballpoint: { rgb: [30, 44, 96], cover: [0.8, 1] },
	pencil: { rgb: [62, 62, 66], cover: [0.3, 0.92] },
	felt: { rgb: [20, 23, 42], cover: [0.94, 1] },
	faint: { rgb: [44, 62, 128], cover: [0.2, 0.42] },
	dry: { rgb: [30, 44, 96], cover: [0.66, 1] }
};

/** Side of the square of grain, in grains, and the size of one grain on the paper. */
const GRAINS = 64;
const GRAIN_PT = 0.22;

/** A pen running dry writes fully for the first length and gives nearly nothing after the second. In points; as the reader draws it. */
const DRY_FULL_PT = 5 * PT_PER_MM;
const DRY_EMPTY_PT = 30 * PT_PER_MM;

/** Draws on `context`, whose pixel (0, 0) shows the corner of `view`, at `scale` pixels a point. */
export function aim(context: CanvasRenderingContext2D, view: Box, scale: number): void {
	context.setTransform(scale, 0, 0, scale, -view.x * scale, -view.y * scale);
	context.lineCap = 'round';
	context.lineJoin = 'round';
}

/** All ink of a page, in the order it came. `context` must be aimed. */
export function paintInk(context: CanvasRenderingContext2D, ink: PageInk): void {
	if (ink.strokes.some(({ tool }) => tool === 'eraser')) paintErased(context, ink.strokes);
	else for (const stroke of ink.strokes) paintStroke(context, stroke);
	for (const mishap of ink.mishaps ?? []) paintMishap(context, mishap);
}

/** One stroke of ink, or its first `count` points while it is being drawn. An eraser alone shows nothing. */
export function paintStroke(context: CanvasRenderingContext2D, stroke: Stroke, count = stroke.points.length): void {
	const points = count < stroke.points.length ? stroke.points.slice(0, count) : stroke.points;
	if (points.length === 0 || stroke.tool === 'eraser') return;
	context.lineWidth = nibPt(stroke);
	if (stroke.tool === 'dry') {
		paintDry(context, points);
		return;
	}
	context.strokeStyle = grainOf(context, stroke.tool);
	trace(context, points);
}

export const nibPt = (stroke: Stroke): number => (stroke.widthMm ?? NIB_MM[stroke.tool]) * PT_PER_MM;

/** An eraser takes pencil, pales a ballpoint and hardly touches felt-tip, so each kind of ink is painted by itself. */
function paintErased(context: CanvasRenderingContext2D, strokes: readonly Stroke[]): void {
	const { width, height } = context.canvas;
	ERASER_RESIDUE.forEach((residue, plane) => {
		const own = strokes.filter(({ tool }) => tool !== 'eraser' && INK_TOOLS[tool].plane === plane);
		if (own.length === 0) return;
		const scratch = document.createElement('canvas');
		scratch.width = width;
		scratch.height = height;
		const layer = scratch.getContext('2d');
		if (!layer) return;
		layer.setTransform(context.getTransform());
		layer.lineCap = 'round';
		layer.lineJoin = 'round';
		for (const stroke of strokes) {
			if (stroke.tool === 'eraser') erase(layer, stroke, residue);
			else if (own.includes(stroke)) paintStroke(layer, stroke);
		}
		context.save();
		context.resetTransform();
		context.drawImage(scratch, 0, 0);
		context.restore();
	});
}

function erase(context: CanvasRenderingContext2D, stroke: Stroke, residue: number): void {
	context.save();
	context.globalCompositeOperation = 'destination-out';
	context.strokeStyle = `rgb(0 0 0 / ${1 - residue})`;
	context.lineWidth = nibPt(stroke);
	trace(context, stroke.points);
	context.restore();
}

function trace(context: CanvasRenderingContext2D, points: readonly StrokePoint[]): void {
	const [first] = points;
	if (!first) return;
	context.beginPath();
	context.moveTo(first[0], first[1]);
	// A line to its own start draws the round cap: a tap is a dot of the nib's width.
	if (points.length === 1) context.lineTo(first[0], first[1] + 0.01);
	for (let i = 1; i < points.length; i += 1) {
		const from = points[i - 1] ?? first;
		const to = points[i] ?? first;
		// Through the middles of the segments: corners look like a hand's, the ends stay exact.
		if (i < points.length - 1) context.quadraticCurveTo(from[0], from[1], (from[0] + to[0]) / 2, (from[1] + to[1]) / 2);
		else context.lineTo(to[0], to[1]);
	}
	context.stroke();
}

/** The longer the stroke, the paler, with gaps where the ball slips. */
function paintDry(context: CanvasRenderingContext2D, points: readonly StrokePoint[]): void {
	context.save();
	context.strokeStyle = grainOf(context, 'dry');
	let run = 0;
	const [first] = points;
	if (points.length === 1 && first) trace(context, [first]);
	for (let i = 1; i < points.length; i += 1) {
		const from = points[i - 1];
		const to = points[i];
		if (!from || !to) continue;
		const dryness = Math.min(1, Math.max(0, run - DRY_FULL_PT) / (DRY_EMPTY_PT - DRY_FULL_PT));
		run += Math.hypot(to[0] - from[0], to[1] - from[1]);
		if (grainAt(Math.round(run * 2), i, 7) < dryness * 0.7) continue;
		context.globalAlpha = 1 - 0.9 * dryness;
		trace(context, [from, to]);
	}
	context.restore();
}

function paintMishap(context: CanvasRenderingContext2D, mishap: Mishap): void {
	context.save();
	if (mishap.kind === 'stain') paintStain(context, mishap);
	else if (mishap.kind === 'smudge') paintSmudge(context, mishap);
	else if (mishap.kind === 'fold') paintFold(context, mishap);
	else paintBleed(context, mishap);
	context.restore();
}

/** A coffee ring: pale inside, a dark uneven rim. */
function paintStain(
	context: CanvasRenderingContext2D,
	{ x, y, radiusPt, seed }: Extract<Mishap, { kind: 'stain' }>
): void {
	context.globalCompositeOperation = 'destination-over';
	const wobbly = (radius: number) => {
		context.beginPath();
		for (let step = 0; step <= 48; step += 1) {
			const angle = (step / 48) * 2 * Math.PI;
			const r = radius * (1 + 0.05 * Math.sin(angle * 3 + seed) + 0.03 * Math.sin(angle * 7 + seed * 2));
			context.lineTo(x + r * Math.cos(angle), y + r * Math.sin(angle));
		}
		context.closePath();
	};
	for (const [share, width, alpha] of [
		[1, 1.6, 0.34],
		[0.97, 3.6, 0.18],
		[0.9, 6, 0.07]
	] as const) {
		wobbly(radiusPt * share);
		context.lineWidth = width;
		context.strokeStyle = `rgb(122 78 34 / ${alpha})`;
		context.stroke();
	}
	wobbly(radiusPt);
	context.fillStyle = 'rgb(150 104 52 / 0.13)';
	context.fill();
}

/** A thumb over wet ink: the ink itself, paler and paler along the way. */
function paintSmudge(context: CanvasRenderingContext2D, { x, y, dx, dy }: Extract<Mishap, { kind: 'smudge' }>): void {
	const length = Math.hypot(dx, dy) || 1;
	const steps = 14;
	for (let i = 0; i < steps; i += 1) {
		const t = i / (steps - 1);
		const wide = 4 + 3 * Math.sin(t * Math.PI);
		context.strokeStyle = `rgb(52 58 84 / ${0.11 * (1 - t)})`;
		context.lineWidth = 2.2;
		const across = { x: (-dy / length) * wide, y: (dx / length) * wide };
		context.beginPath();
		context.moveTo(x + dx * t + across.x, y + dy * t + across.y);
		context.lineTo(x + dx * t - across.x, y + dy * t - across.y);
		context.stroke();
	}
}

/** A crease: light on one side, shade on the other. */
function paintFold(context: CanvasRenderingContext2D, { at, along }: Extract<Mishap, { kind: 'fold' }>): void {
	const far = 2000;
	const line = (offset: number, width: number, colour: string) => {
		context.strokeStyle = colour;
		context.lineWidth = width;
		context.beginPath();
		if (along === 'x') {
			context.moveTo(-far, at + offset);
			context.lineTo(far, at + offset);
		} else {
			context.moveTo(at + offset, -far);
			context.lineTo(at + offset, far);
		}
		context.stroke();
	};
	line(2.5, 5, 'rgb(90 70 40 / 0.06)');
	line(0.9, 1.8, 'rgb(90 70 40 / 0.12)');
	line(0, 0.9, 'rgb(70 54 34 / 0.4)');
}

function paintBleed(context: CanvasRenderingContext2D, { strokes }: Extract<Mishap, { kind: 'bleed' }>): void {
	for (const [grow, alpha] of [
		[1.6, 0.06],
		[0.8, 0.08],
		[0, 0.12]
	] as const)
		for (const stroke of strokes) {
			context.lineWidth = nibPt(stroke) + grow;
			context.strokeStyle = `rgb(40 42 66 / ${alpha})`;
			trace(context, stroke.points);
		}
}

const grains = new Map<string, CanvasPattern | string>();

/** The grain of an ink as a pattern that is fixed to the paper, so that ink does not swim when zoomed. */
function grainOf(context: CanvasRenderingContext2D, tool: Wet): CanvasPattern | string {
	const known = grains.get(tool);
	if (known) return known;
	const { rgb, cover } = INKS[tool];
	const tile = new ImageData(GRAINS, GRAINS);
	for (let y = 0; y < GRAINS; y += 1)
		for (let x = 0; x < GRAINS; x += 1) {
			const at = (y * GRAINS + x) * 4;
			tile.data.set(rgb, at);
			tile.data[at + 3] = 255 * (cover[0] + (cover[1] - cover[0]) * grainAt(x, y, 11));
		}
	const canvas = document.createElement('canvas');
	canvas.width = GRAINS;
	canvas.height = GRAINS;
	canvas.getContext('2d')?.putImageData(tile, 0, 0);
	const pattern = context.createPattern(canvas, 'repeat');
	pattern?.setTransform(new DOMMatrix().scale(GRAIN_PT));
	const style = pattern ?? `rgb(${rgb.join(' ')})`;
	grains.set(tool, style);
	return style;
}
