import { UNSEEN_BELOW, type Residual } from './residual';

/** Widest print that one stroke is followed across, in pixels: the stems of bold headings are 7 at 200 dpi. */
const BRIDGE_PX = 9;

/** Pieces of fewer pixels are specks of dust (0.2 mm across). */
const LEAST_PIXELS = 3;

/** Pixels that hang together, print between them bridged. All positions are pixels of the page. */
export interface Component {
	readonly left: number;
	readonly top: number;
	/** One past the last. */
	readonly right: number;
	readonly bottom: number;
	/** x and y of each pixel: x0, y0, x1, y1, … Bridged ones come with darkness 0. */
	readonly xs: Int32Array;
	readonly ys: Int32Array;
	readonly darks: Uint8Array;
	/** How many of the pixels are ink and not a bridge. */
	readonly inkCount: number;
	/** Sum of the darkness of its ink, of 255 each. */
	readonly mass: number;
	/** Darkness that a tenth of its ink exceeds, 0 to 255. */
	readonly peak: number;
}

const PLAIN = 0;
const INK = 1;
const BRIDGE = 2;

let mask = new Uint8Array(0);
let stack = new Int32Array(1 << 12);

/**
 * The connected pieces of ink in a residual, in page order. Printed pixels between two pieces are taken for
 * ink when both sides lie across at most BRIDGE_PX of print: a line through a name stays one.
 */
export function findComponents(residual: Residual): Component[] {
	const { width, height, pixels, count } = residual;
	const size = width * height;
	if (mask.length < size) mask = new Uint8Array(size);
	const ink = pixels.subarray(0, count);
	for (let i = 0; i < count; i++) mask[ink[i] as number] = INK;
	const bridges = findBridges(residual, ink);
	const found: Component[] = [];
	for (let i = 0; i < count; i++) {
		const at = ink[i] as number;
		if (mask[at] !== INK) continue;
		const members = flood(at, width, height);
		const component = componentOf(residual, members);
		if (component.inkCount >= LEAST_PIXELS) found.push(component);
	}
	for (const at of bridges) mask[at] = PLAIN;
	return found;
}

/** Marks the printed pixels between two inked ones, looking right, down and along both diagonals. */
function findBridges({ left, top, width, height, print }: Residual, ink: Int32Array): number[] {
	const bridges: number[] = [];
	const printed = print.data;
	for (let i = 0; i < ink.length; i++) {
		const at = ink[i] as number;
		const y = (at / width) | 0;
		const x = at - y * width;
		const onPage = (y + top) * print.width + x + left;
		for (const [dx, dy] of AHEAD) {
			const step = dy * print.width + dx;
			if ((printed[onPage + step] as number) >= UNSEEN_BELOW) continue;
			let steps = 1;
			while (steps <= BRIDGE_PX && (printed[onPage + step * steps] as number) < UNSEEN_BELOW) steps += 1;
			const endX = x + dx * steps;
			const endY = y + dy * steps;
			if (steps > BRIDGE_PX || endX < 0 || endX >= width || endY >= height) continue;
			if (mask[endY * width + endX] !== INK) continue;
			for (let along = 1; along < steps; along++) {
				const between = at + (dy * width + dx) * along;
				if (mask[between] !== PLAIN) continue;
				mask[between] = BRIDGE;
				bridges.push(between);
			}
		}
	}
	return bridges;
}

const AHEAD = [
	[1, 0],
	[-1, 1],
	[0, 1],
	[1, 1]
] as const;

/** Takes a piece out of the mask; gives its indices. */
function flood(start: number, width: number, height: number): Int32Array {
	let length = 0;
	let members = 0;
	const push = (at: number) => {
		mask[at] = PLAIN;
		if (length === stack.length) {
			const larger = new Int32Array(stack.length * 2);
			larger.set(stack);
			stack = larger;
		}
		stack[length++] = at;
	};
	push(start);
	// Members stay on the list; `members` walks along it.
	while (members < length) {
		const at = stack[members++] as number;
		const y = (at / width) | 0;
		const x = at - y * width;
		const fromX = x > 0 ? -1 : 0;
		const toX = x < width - 1 ? 1 : 0;
		for (let dy = y > 0 ? -1 : 0; dy <= (y < height - 1 ? 1 : 0); dy++)
			for (let dx = fromX; dx <= toX; dx++) {
				const beside = at + dy * width + dx;
				if (mask[beside] !== PLAIN) push(beside);
			}
	}
	return stack.slice(0, length);
}

function componentOf({ left, top, width, dark }: Residual, members: Int32Array): Component {
	members.sort();
	const xs = new Int32Array(members.length);
	const ys = new Int32Array(members.length);
	const darks = new Uint8Array(members.length);
	for (let i = 0; i < members.length; i++) {
		const at = members[i] as number;
		const row = (at / width) | 0;
		xs[i] = at - row * width + left;
		ys[i] = row + top;
		darks[i] = dark[at] as number;
	}
	return gatherComponent(xs, ys, darks);
}

/** A component of the pixels given, at least one; those with darkness 0 are bridges. */
export function gatherComponent(xs: Int32Array, ys: Int32Array, darks: Uint8Array): Component {
	const counts = new Uint32Array(256);
	let [left, top, right, bottom] = [Infinity, Infinity, -Infinity, -Infinity];
	let inkCount = 0;
	let mass = 0;
	for (let i = 0; i < xs.length; i++) {
		const x = xs[i] as number;
		const y = ys[i] as number;
		const value = darks[i] as number;
		if (x < left) left = x;
		if (x >= right) right = x + 1;
		if (y < top) top = y;
		if (y >= bottom) bottom = y + 1;
		if (value === 0) continue;
		inkCount += 1;
		mass += value;
		counts[value] = (counts[value] as number) + 1;
	}
	let peak = 255;
	for (let above = 0; peak > 0; peak--) {
		above += counts[peak] as number;
		if (above > inkCount / 10) break;
	}
	return { left, top, right, bottom, xs, ys, darks, inkCount, mass, peak };
}
