import { gatherComponent, type Component } from './components';

/** Ink paler than this share of a piece's peak may be something else under it: a stain, a smear, a fold. */
const PALE_SHARE = 0.48;

/** The blur at the edge of dark ink reaches this far, in pixels. */
const FRINGE_PX = 3;

/** A pale part is worth telling apart from this many pixels on, and from this share of the piece. */
const LEAST_PIXELS = 40;
const LEAST_SHARE = 0.08;

const NOTHING = 0;
const CORE = 1;
const PALE = 2;

export interface Tones {
	/** Dark parts, or the whole piece where it is of one tone. */
	readonly dark: readonly Component[];
	/** Pale parts that hang on dark ones. */
	readonly pale: readonly Component[];
}

/** Takes a piece of ink apart where a dark mark and something much paler touch. */
export function separateTones(piece: Component): Tones {
	const whole = { dark: [piece], pale: [] };
	const { xs, ys, darks, left, top, right, bottom, inkCount, peak } = piece;
	const least = PALE_SHARE * peak;
	let pale = 0;
	for (const dark of darks) if (dark > 0 && dark < least) pale += 1;
	if (pale < LEAST_PIXELS || pale < LEAST_SHARE * inkCount) return whole;

	const width = right - left + 2;
	const height = bottom - top + 2;
	const classes = new Uint8Array(width * height);
	const at = (i: number) => ((ys[i] as number) - top + 1) * width + (xs[i] as number) - left + 1;
	const near = nearCore(piece, least, width, height);
	let remote = 0;
	for (let i = 0; i < xs.length; i++) {
		const isCore = near[at(i)] === 1;
		classes[at(i)] = isCore ? CORE : PALE;
		if (!isCore && darks[i] !== 0) remote += 1;
	}
	if (remote < LEAST_PIXELS || remote < LEAST_SHARE * inkCount) return whole;

	const parts = label(classes, width);
	const members: number[][] = parts.kinds.map(() => []);
	for (let i = 0; i < xs.length; i++) members[(parts.labels[at(i)] as number) - 1]?.push(i);
	const found: { dark: Component[]; pale: Component[] } = { dark: [], pale: [] };
	members.forEach((own, part) => {
		const component = gatherComponent(
			Int32Array.from(own, (i) => xs[i] as number),
			Int32Array.from(own, (i) => ys[i] as number),
			Uint8Array.from(own, (i) => darks[i] as number)
		);
		if (component.inkCount < 3) return;
		if (parts.kinds[part] === CORE) found.dark.push(component);
		else if (component.inkCount >= LEAST_PIXELS / 2) found.pale.push(component);
	});
	return found;
}

/** 1 at every place at most FRINGE_PX from a dark pixel, each way. */
function nearCore({ xs, ys, darks, left, top }: Component, least: number, width: number, height: number): Uint8Array {
	const across = new Uint8Array(width * height);
	for (let i = 0; i < xs.length; i++) {
		if ((darks[i] as number) < least) continue;
		const x = (xs[i] as number) - left + 1;
		const row = ((ys[i] as number) - top + 1) * width;
		across.fill(1, row + Math.max(0, x - FRINGE_PX), row + Math.min(width, x + FRINGE_PX + 1));
	}
	const near = new Uint8Array(width * height);
	for (let y = 0; y < height; y++)
		for (let from = Math.max(0, y - FRINGE_PX); from <= Math.min(height - 1, y + FRINGE_PX); from++)
			for (let x = 0; x < width; x++) if (across[from * width + x] === 1) near[y * width + x] = 1;
	return near;
}

/** Numbers the connected parts of one class each, from 1. */
function label(classes: Uint8Array, width: number): { labels: Int32Array; kinds: number[] } {
	const labels = new Int32Array(classes.length);
	const kinds: number[] = [];
	const stack: number[] = [];
	const around = [-width - 1, -width, -width + 1, -1, 1, width - 1, width, width + 1];
	for (let start = 0; start < classes.length; start++) {
		const kind = classes[start] as number;
		if (kind === NOTHING || labels[start] !== 0) continue;
		kinds.push(kind);
		labels[start] = kinds.length;
		stack.push(start);
		for (let at = stack.pop(); at !== undefined; at = stack.pop())
			for (const offset of around) {
				const beside = at + offset;
				if (classes[beside] !== kind || labels[beside] !== 0) continue;
				labels[beside] = kinds.length;
				stack.push(beside);
			}
	}
	return { labels, kinds };
}
