import { PX_PER_PT, type GreyImage } from '../../src/core/image';
import { grainAt, randomFrom } from '../../src/core/random';
import { FINER } from './finePrint';

/** One shot of a sheet lying on a table. */
export interface Shot {
	/** Turn of the sheet in the picture, in degrees. */
	readonly turn: number;
	/** Angle between looking straight down and how the camera looks, in degrees, and towards which side it leans. */
	readonly tilt: number;
	readonly towards: number;
	/** Pixels of the photo in an inch of the sheet where they are fewest. */
	readonly dpi: number;
	/** Standard deviation of the blur, in pixels of a 200 dpi page. */
	readonly blur: number;
	/** Rise of the middle over the edges, in points, of a sheet curled along x and along y. */
	readonly curlX: number;
	readonly curlY: number;
	/** Angle at the sheet's two folds, in degrees: one up, one down. */
	readonly crease: number;
	/** Light at the dimmer side as a share of the brighter, and where the dimmer side is, in degrees. */
	readonly dimmer: number;
	readonly dimAt: number;
	/** Share of the light left in a shadow over part of the sheet, the width of its edge in points, and where it falls. */
	readonly shadow: number;
	readonly shadowEdge: number;
	readonly shadowAt: number;
	readonly shadowTurn: number;
	/** Grey of white paper in the best light, grey added by flare, standard deviation of noise. */
	readonly white: number;
	readonly flare: number;
	readonly noise: number;
	readonly seed: number;
	/** Largest size of the photo, in pixels; a sheet that would not fit is taken from further off. Default 4000 x 3000. */
	readonly largest?: readonly [number, number];
	/** A finger over a corner of the sheet, from 0 (top left) clockwise. */
	readonly finger?: number;
}

const PAGE = { width: 612, height: 792 };
const FOLDS = [264, 528];
/** Focal length in widths of the photo's longer side: a phone's main camera. */
const FOCAL = 0.75;
const STEP_PT = 6;
/** No camera comes closer than this; none is further away. */
const NEAREST_PT = 620;
const FARTHEST_PT = 20_000;

/** A shot within the stated limits, or the hardest of them where `hard` is 1. */
export function shotOf(seed: number): Shot {
	const random = randomFrom(seed * 7919 + 17);
	const between = (from: number, to: number) => from + (to - from) * random();
	const sometimes = (share: number, value: () => number, other: number) => (random() < share ? value() : other);
	return {
		turn: sometimes(0.6, () => between(-20, 20), between(0, 360)),
		tilt: between(0, 40),
		towards: between(0, 360),
		dpi: between(150, 300),
		blur: between(0.3, 1.5),
		curlX: sometimes(0.35, () => between(-14, 14), 0),
		curlY: sometimes(0.35, () => between(-14, 14), 0),
		crease: sometimes(0.5, () => between(2, 8), 0),
		dimmer: between(0.5, 1),
		dimAt: between(0, 360),
		shadow: sometimes(0.5, () => between(0.5, 0.9), 1),
		shadowEdge: between(10, 40),
		shadowAt: between(-200, 200),
		shadowTurn: between(0, 360),
		white: between(170, 240),
		flare: between(0, 25),
		noise: between(1, 4),
		seed
	};
}

/** How a flat sheet lies in space along one of its directions: place and height of each arc length. */
function profileOf(length: number, rise: number, folds: readonly number[], creaseDeg: number) {
	// A circle's arc that rises by `rise` over half the length; its angle grows evenly.
	const bend = (8 * rise) / (length * length);
	const along: number[] = [];
	const height: number[] = [];
	let [u, z] = [0, 0];
	for (let s = 0; s <= length; s++) {
		along.push(u);
		height.push(z);
		const passed = folds.filter((fold) => s >= fold).length;
		const fold =
			creaseDeg === 0 ? 0 : ((passed === 1 ? -creaseDeg : passed === 2 ? creaseDeg : creaseDeg / 2) * Math.PI) / 180;
		const angle = bend * (length / 2 - s) + fold;
		u += Math.cos(angle);
		z += Math.sin(angle);
	}
	return (s: number): readonly [number, number] => {
		const i = Math.max(0, Math.min(length - 1, Math.floor(s)));
		const t = s - i;
		return [along[i]! + t * (along[i + 1]! - along[i]!), height[i]! + t * (height[i + 1]! - height[i]!)];
	};
}

type Project = (x: number, y: number) => readonly [number, number];

/** Where each place of the sheet is in the photo, and the photo's size. */
export function lens(shot: Shot): { readonly project: Project; readonly width: number; readonly height: number } {
	const acrossOf = profileOf(PAGE.width, shot.curlX, [], 0);
	const downOf = profileOf(PAGE.height, shot.curlY, FOLDS, shot.crease);
	const radians = Math.PI / 180;
	const [ct, st] = [Math.cos(shot.turn * radians), Math.sin(shot.turn * radians)];
	const [ca, sa] = [Math.cos(shot.towards * radians), Math.sin(shot.towards * radians)];
	const [ci, si] = [Math.cos(shot.tilt * radians), Math.sin(shot.tilt * radians)];
	const [middleX, middleZx] = acrossOf(PAGE.width / 2);
	const [middleY, middleZy] = downOf(PAGE.height / 2);
	const [longest, shortest] = shot.largest ?? [4000, 3000];
	const at =
		(distance: number, focal: number): Project =>
		(x, y) => {
			const [ax, az] = acrossOf(x);
			const [dy, dz] = downOf(y);
			const [px, py, pz] = [ax - middleX, dy - middleY, az + dz - middleZx - middleZy];
			const [rx, ry] = [ct * px - st * py, st * px + ct * py];
			const lean = ca * rx + sa * ry;
			const side = -sa * rx + ca * ry;
			const tipped = lean * ci + pz * si;
			const depth = distance + lean * si - pz * ci;
			const [qx, qy] = [ca * tipped - sa * side, sa * tipped + ca * side];
			return [(focal * qx) / depth, (focal * qy) / depth];
		};
	const focal = FOCAL * longest;
	let project = at(1500, focal);
	const bounds = () => {
		const places = edgePlaces().map(([x, y]) => project(x, y));
		const xs = places.map(([x]) => x);
		const ys = places.map(([, y]) => y);
		return { left: Math.min(...xs), right: Math.max(...xs), top: Math.min(...ys), bottom: Math.max(...ys) };
	};
	// As near as the wished resolution asks for and the photo's size allows.
	let [near, far] = [NEAREST_PT, FARTHEST_PT];
	for (let round = 0; round < 40; round++) {
		const middle = Math.sqrt(near * far);
		project = at(middle, focal);
		const { left, right, top, bottom } = bounds();
		const fits =
			Math.max(right - left, bottom - top) <= 0.96 * longest && Math.min(right - left, bottom - top) <= 0.96 * shortest;
		if (fits && leastDpi(project) <= shot.dpi) far = middle;
		else near = middle;
	}
	project = at(far, focal);
	const { left, right, top, bottom } = bounds();
	const margin = 0.02 * longest;
	return {
		project: (x, y) => {
			const [px, py] = project(x, y);
			return [px - left + margin, py - top + margin];
		},
		width: Math.ceil(right - left + 2 * margin),
		height: Math.ceil(bottom - top + 2 * margin)
	};
}

function edgePlaces(): readonly (readonly [number, number])[] {
	const places: [number, number][] = [];
	for (let i = 0; i <= 12; i++)
		places.push(
			[(PAGE.width * i) / 12, 0],
			[(PAGE.width * i) / 12, PAGE.height],
			[0, (PAGE.height * i) / 12],
			[PAGE.width, (PAGE.height * i) / 12]
		);
	return places;
}

/** Fewest pixels to an inch, by area, at the corners and edges of the sheet. */
export function leastDpi(project: Project): number {
	let least = Infinity;
	for (const [x, y] of edgePlaces()) {
		const [x0, y0] = project(Math.min(x, PAGE.width - 2), Math.min(y, PAGE.height - 2));
		const [x1, y1] = project(Math.min(x, PAGE.width - 2) + 2, Math.min(y, PAGE.height - 2));
		const [x2, y2] = project(Math.min(x, PAGE.width - 2), Math.min(y, PAGE.height - 2) + 2);
		least = Math.min(least, 36 * Math.sqrt(Math.abs((x1 - x0) * (y2 - y0) - (y1 - y0) * (x2 - x0))));
	}
	return least;
}

/** A photo of a fine print (see finePrint) taken so. The same shot gives the same photo. */
export function photograph(sheet: GreyImage, shot: Shot): GreyImage {
	const { project, width, height } = lens(shot);
	const photo = table(width, height, shot.seed);
	const dpi = leastDpi(project);
	drawSheetInPlace(photo, width, height, sheet, shot, project, dpi);
	if (shot.finger !== undefined) coverInPlace(photo, width, height, project, shot.finger);
	blurInPlace(photo, width, height, (shot.blur * dpi) / 200);
	const data = new Uint8Array(width * height);
	const noise = noiseOf(shot.seed, shot.noise);
	const random = randomFrom(shot.seed + 99);
	const gain = 1 - shot.flare / 255;
	for (let row = 0; row < height; row++) {
		const from = Math.floor(random() * (noise.length - width));
		for (let column = 0; column < width; column++) {
			const value = shot.flare + photo[row * width + column]! * gain + noise[from + column]!;
			data[row * width + column] = value < 0 ? 0 : value > 255 ? 255 : value + 0.5;
		}
	}
	return { width, height, data };
}

/** A long line of noise, nearly normal: each value is the sum of three even numbers. */
function noiseOf(seed: number, deviation: number): Float32Array {
	const random = randomFrom(seed + 98);
	return Float32Array.from({ length: 1 << 17 }, () => deviation * 2 * (random() + random() + random() - 1.5));
}

/** A table top: dark, with a slow grain. */
function table(width: number, height: number, seed: number): Float32Array {
	const top = new Float32Array(width * height);
	const base = 50 + 70 * grainAt(1, 1, seed);
	const waves = Float32Array.from({ length: width }, (_, x) => 14 * Math.sin(x / 37));
	for (let y = 0; y < height; y++) {
		const grain = 16 * (grainAt(7, y >> 2, seed) - 0.5);
		for (let x = 0; x < width; x++) top[y * width + x] = base + waves[x]! + grain;
	}
	return top;
}

function drawSheetInPlace(
	photo: Float32Array,
	width: number,
	height: number,
	sheet: GreyImage,
	shot: Shot,
	project: Project,
	dpi: number
): void {
	// A photo that is much coarser than the print takes from a print of half the pixels, so that nothing is skipped.
	const coarse = dpi < 220;
	const source = coarse ? halved(sheet) : sheet;
	const pxPerPt = (PX_PER_PT * FINER) / (coarse ? 2 : 1);
	const light = lightOf(shot);
	const cornerAt = (x: number, y: number): Corner => [...project(x, y), x * pxPerPt, y * pxPerPt, light(x, y)];
	for (let y = 0; y < PAGE.height; y += STEP_PT)
		for (let x = 0; x < PAGE.width; x += STEP_PT) {
			const [a, b] = [cornerAt(x, y), cornerAt(x + STEP_PT, y)];
			const [c, d] = [cornerAt(x, y + STEP_PT), cornerAt(x + STEP_PT, y + STEP_PT)];
			fillTriangle(photo, width, height, a, b, c, source);
			fillTriangle(photo, width, height, d, c, b, source);
		}
}

/** A place in the photo, the place in the source that is seen there, and the light on it. */
type Corner = readonly [x: number, y: number, sourceX: number, sourceY: number, light: number];

function fillTriangle(
	photo: Float32Array,
	width: number,
	height: number,
	a: Corner,
	b: Corner,
	c: Corner,
	source: GreyImage
): void {
	const [ux, uy, vx, vy] = [b[0] - a[0], b[1] - a[1], c[0] - a[0], c[1] - a[1]];
	const det = ux * vy - uy * vx;
	const top = Math.max(0, Math.ceil(Math.min(a[1], b[1], c[1]) - 0.5));
	const bottom = Math.min(height - 1, Math.floor(Math.max(a[1], b[1], c[1]) - 0.5));
	const left = Math.max(0, Math.ceil(Math.min(a[0], b[0], c[0]) - 0.5));
	const right = Math.min(width - 1, Math.floor(Math.max(a[0], b[0], c[0]) - 0.5));
	for (let row = top; row <= bottom; row++)
		for (let column = left; column <= right; column++) {
			const dx = column + 0.5 - a[0];
			const dy = row + 0.5 - a[1];
			const s = (dx * vy - dy * vx) / det;
			const t = (dy * ux - dx * uy) / det;
			if (s < -1e-9 || t < -1e-9 || s + t > 1 + 1e-9) continue;
			const x = a[2] + s * (b[2] - a[2]) + t * (c[2] - a[2]);
			const y = a[3] + s * (b[3] - a[3]) + t * (c[3] - a[3]);
			photo[row * width + column] = sample(source, x, y) * (a[4] + s * (b[4] - a[4]) + t * (c[4] - a[4]));
		}
}

function sample({ width, height, data }: GreyImage, x: number, y: number): number {
	const fx = Math.max(0, Math.min(width - 1.001, x - 0.5));
	const fy = Math.max(0, Math.min(height - 1.001, y - 0.5));
	const x0 = fx | 0;
	const y0 = fy | 0;
	const at = y0 * width + x0;
	const [wx, wy] = [fx - x0, fy - y0];
	const upper = data[at]! * (1 - wx) + data[at + 1]! * wx;
	const lower = data[at + width]! * (1 - wx) + data[at + width + 1]! * wx;
	return upper * (1 - wy) + lower * wy;
}

/** Light on each place of the sheet, 1 for paper of the shot's white. */
function lightOf(shot: Shot): (x: number, y: number) => number {
	const radians = Math.PI / 180;
	const [dx, dy] = [Math.cos(shot.dimAt * radians), Math.sin(shot.dimAt * radians)];
	const [sx, sy] = [Math.cos(shot.shadowTurn * radians), Math.sin(shot.shadowTurn * radians)];
	return (x, y) => {
		const far = ((x - 306) * dx + (y - 396) * dy) / 500;
		const even = shot.dimmer + (1 - shot.dimmer) * Math.max(0, Math.min(1, (1 - far) / 2));
		const into = ((x - 306) * sx + (y - 396) * sy - shot.shadowAt) / shot.shadowEdge;
		const share = Math.max(0, Math.min(1, into + 0.5));
		const smooth = share * share * (3 - 2 * share);
		return (shot.white / 250) * even * (1 - (1 - shot.shadow) * smooth);
	};
}

function halved({ width, height, data }: GreyImage): GreyImage {
	const [w, h] = [width >> 1, height >> 1];
	const half = new Uint8Array(w * h);
	for (let y = 0; y < h; y++)
		for (let x = 0; x < w; x++) {
			const at = 2 * y * width + 2 * x;
			half[y * w + x] = (data[at]! + data[at + 1]! + data[at + width]! + data[at + width + 1]! + 2) >> 2;
		}
	return { width: w, height: h, data: half };
}

function coverInPlace(photo: Float32Array, width: number, height: number, project: Project, finger: number): void {
	const [x, y] = [finger === 0 || finger === 3 ? 27 : PAGE.width - 27, finger < 2 ? 27 : PAGE.height - 27];
	const [px, py] = project(x, y);
	const [qx, qy] = project(x + (x < 300 ? 30 : -30), y);
	const reach = Math.hypot(qx - px, qy - py);
	for (let row = Math.max(0, Math.floor(py - reach)); row < Math.min(height, py + reach); row++)
		for (let column = Math.max(0, Math.floor(px - reach)); column < Math.min(width, px + reach); column++)
			if (Math.hypot(column - px, row - py) < reach) photo[row * width + column] = 120;
}

/** A normal blur, rows and then columns. */
function blurInPlace(photo: Float32Array, width: number, height: number, sigma: number): void {
	const reach = Math.max(1, Math.ceil(2.5 * sigma));
	const weights = Array.from({ length: 2 * reach + 1 }, (_, i) => Math.exp(-((i - reach) ** 2) / (2 * sigma * sigma)));
	const sum = weights.reduce((total, weight) => total + weight, 0);
	const kernel = Float32Array.from(weights, (weight) => weight / sum);
	const line = new Float32Array(width + 2 * reach);
	for (let row = 0; row < height; row++) {
		const base = row * width;
		line.set(photo.subarray(base, base + width), reach);
		line.fill(line[reach]!, 0, reach);
		line.fill(line[reach + width - 1]!, reach + width);
		for (let k = 0; k < width; k++) {
			let value = 0;
			for (let j = 0; j < kernel.length; j++) value += kernel[j]! * line[k + j]!;
			photo[base + k] = value;
		}
	}
	// Columns by whole rows at a time, a few of the rows above kept as they were.
	const rows = Array.from({ length: 2 * reach + 1 }, (_, i) => rowAt(i - reach));
	function rowAt(row: number): Float32Array {
		const at = Math.max(0, Math.min(height - 1, row)) * width;
		return photo.slice(at, at + width);
	}
	for (let row = 0; row < height; row++) {
		const out = photo.subarray(row * width, (row + 1) * width).fill(0);
		for (let j = 0; j < kernel.length; j++) {
			const weight = kernel[j]!;
			const from = rows[j]!;
			for (let x = 0; x < width; x++) out[x] = out[x]! + weight * from[x]!;
		}
		rows.shift();
		rows.push(rowAt(row + reach + 1));
	}
}
