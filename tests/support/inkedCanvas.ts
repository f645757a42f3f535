import { vi } from 'vitest';

/*
 * As much of a browser's canvas as ink needs, for tests in Node: it keeps how many strokes lie on each pixel, no colours.
 * A curve is drawn along its two straight sides, and what takes a part of the ink away takes all of it.
 */

/** Where tiles are laid, as an element holds its children. */
export class InkHost {
	readonly tiles: InkedCanvas[] = [];

	append(tile: InkedCanvas): void {
		this.tiles.push(tile);
		tile.host = this;
	}
}

export class InkedCanvas {
	/** Strokes and other drawing calls that reached this canvas. */
	drawn = 0;
	/** Taken out of sight, as by the attribute. */
	hidden = false;
	depths = new Uint8Array(0);
	host: InkHost | undefined;
	readonly style: Record<'left' | 'top' | 'width' | 'height', string> = { left: '', top: '', width: '', height: '' };
	readonly #context = new InkedContext(this);
	#width = 300;
	#height = 150;

	get width(): number {
		return this.#width;
	}

	/** Setting a size, the same one too, empties a canvas (HTML standard, 4.12.5). */
	set width(px: number) {
		this.#width = px;
		this.depths = new Uint8Array(this.#width * this.#height);
	}

	get height(): number {
		return this.#height;
	}

	set height(px: number) {
		this.#height = px;
		this.depths = new Uint8Array(this.#width * this.#height);
	}

	getContext(): InkedContext {
		return this.#context;
	}

	remove(): void {
		const own = this.host?.tiles;
		own?.splice(own.indexOf(this), 1);
	}
}

interface Pen {
	/** Pixels to a unit, and the pixel of the origin. */
	scale: number;
	left: number;
	top: number;
	lineWidth: number;
	globalCompositeOperation: string;
}

class InkedContext {
	readonly canvas: InkedCanvas;
	lineCap = 'butt';
	lineJoin = 'miter';
	strokeStyle: unknown;
	globalAlpha = 1;
	lineWidth = 1;
	globalCompositeOperation = 'source-over';
	#at = { scale: 1, left: 0, top: 0 };
	#path: (readonly [x: number, y: number])[] = [];
	readonly #saved: Pen[] = [];

	constructor(canvas: InkedCanvas) {
		this.canvas = canvas;
	}

	setTransform(a: number | { a: number; e: number; f: number }, ...more: readonly number[]): void {
		this.#at =
			typeof a === 'number' ? { scale: a, left: more[3] ?? 0, top: more[4] ?? 0 } : { scale: a.a, left: a.e, top: a.f };
	}

	getTransform(): { a: number; e: number; f: number } {
		return { a: this.#at.scale, e: this.#at.left, f: this.#at.top };
	}

	resetTransform(): void {
		this.setTransform(1, 0, 0, 1, 0, 0);
	}

	save(): void {
		const { lineWidth, globalCompositeOperation } = this;
		this.#saved.push({ ...this.#at, lineWidth, globalCompositeOperation });
	}

	restore(): void {
		const { scale, left, top, ...pen } = this.#saved.pop()!;
		this.#at = { scale, left, top };
		Object.assign(this, pen);
	}

	beginPath(): void {
		this.#path = [];
	}

	moveTo(x: number, y: number): void {
		this.#path = [[x, y]];
	}

	lineTo(x: number, y: number): void {
		this.#path.push([x, y]);
	}

	quadraticCurveTo(cx: number, cy: number, x: number, y: number): void {
		this.#path.push([cx, cy], [x, y]);
	}

	stroke(): void {
		const { width, height, depths } = this.canvas;
		const { scale, left, top } = this.#at;
		this.canvas.drawn += 1;
		// The middle of a pixel may lie so far from a line that is thinner than it.
		const reach = Math.max((this.lineWidth * scale) / 2, Math.SQRT1_2);
		const path = this.#path.map(([x, y]) => [x * scale + left, y * scale + top] as const);
		const inked = new Set<number>();
		for (let i = 1; i < path.length; i += 1) {
			const [[x0, y0], [x1, y1]] = [path[i - 1]!, path[i]!];
			for (let y = span(y0, y1, reach, height).from; y < span(y0, y1, reach, height).end; y += 1)
				for (let x = span(x0, x1, reach, width).from; x < span(x0, x1, reach, width).end; x += 1)
					if (offLine(x + 0.5, y + 0.5, x0, y0, x1, y1) <= reach) inked.add(y * width + x);
		}
		for (const at of inked) depths[at] = this.globalCompositeOperation === 'destination-out' ? 0 : depths[at]! + 1;
	}

	clearRect(x: number, y: number, wide: number, high: number): void {
		const { width, height, depths } = this.canvas;
		const { scale, left, top } = this.#at;
		const [x0, x1] = [x * scale + left, (x + wide) * scale + left];
		const [y0, y1] = [y * scale + top, (y + high) * scale + top];
		for (let row = 0; row < height; row += 1)
			for (let column = 0; column < width; column += 1)
				if (row + 0.5 > y0 && row + 0.5 < y1 && column + 0.5 > x0 && column + 0.5 < x1)
					depths[row * width + column] = 0;
	}

	drawImage(from: InkedCanvas): void {
		this.canvas.drawn += 1;
		from.depths.forEach((depth, at) => (this.canvas.depths[at]! += depth));
	}

	putImageData(): void {
		// Grain is colour, and colours are not kept.
	}

	createPattern(): null {
		return null;
	}
}

const span = (a: number, b: number, reach: number, size: number) => ({
	from: Math.max(0, Math.floor(Math.min(a, b) - reach)),
	end: Math.min(size, Math.ceil(Math.max(a, b) + reach))
});

function offLine(x: number, y: number, x0: number, y0: number, x1: number, y1: number): number {
	const [dx, dy] = [x1 - x0, y1 - y0];
	const long = dx * dx + dy * dy;
	const share = long === 0 ? 0 : Math.max(0, Math.min(1, ((x - x0) * dx + (y - y0) * dy) / long));
	return Math.hypot(x - x0 - share * dx, y - y0 - share * dy);
}

/** Puts these canvases in a browser's place, and for `reduced` a voter who wants no motion; `vi.unstubAllGlobals` takes them away. */
export function stubCanvas(reduced = false): void {
	vi.stubGlobal('document', { createElement: () => new InkedCanvas() });
	vi.stubGlobal(
		'ImageData',
		class {
			readonly data: Uint8ClampedArray;
			constructor(width: number, height: number) {
				this.data = new Uint8ClampedArray(4 * width * height);
			}
		}
	);
	vi.stubGlobal('matchMedia', (query: string) => ({
		matches: reduced && query === '(prefers-reduced-motion: reduce)'
	}));
}

/** How many strokes the eye sees at a pixel of a layer that is so many pixels wide and high: where CSS puts each tile. */
export function depthAt(
	host: InkHost,
	size: { readonly widthPx: number; readonly heightPx: number },
	x: number,
	y: number
): number {
	let depth = 0;
	for (const tile of host.tiles) {
		if (tile.hidden) continue;
		const { left, top, width, height } = tile.style;
		const [wide, high] = [partOf(width, size.widthPx), partOf(height, size.heightPx)];
		// A canvas is stretched to the size that CSS gives it.
		const column = Math.floor(((x + 0.5 - partOf(left, size.widthPx)) / wide) * tile.width);
		const row = Math.floor(((y + 0.5 - partOf(top, size.heightPx)) / high) * tile.height);
		if (column < 0 || row < 0 || column >= tile.width || row >= tile.height) continue;
		depth += tile.depths[row * tile.width + column]!;
	}
	return depth;
}

const partOf = (percent: string, whole: number): number => (Number(/^([\d.]+)%$/.exec(percent)?.[1]) * whole) / 100;
