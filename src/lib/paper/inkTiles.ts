import { grow, type Box } from '$core/geometry';
import { aim } from './paintInk';

/** Side of a tile in pixels of the screen. Of 128, 256 and 512 the one with which the first note came soonest. */
const TILE_PX = 256;

/** Ink reaches past its box by the round of a pixel. */
const REACH_PX = 2;

export interface SheetSize {
	readonly widthPx: number;
	readonly heightPx: number;
}

/**
 * A layer of ink as small canvases side by side, each made when ink first reaches it. Where nothing else draws them, a
 * browser copies a whole canvas for every frame in which a part of it changed; a mark touches one tile or two.
 */
export class InkTiles {
	readonly #host: HTMLElement;
	readonly #tiles = new Map<number, HTMLCanvasElement>();
	#size: SheetSize = { widthPx: 0, heightPx: 0 };

	/** `host` is as large as the sheet. */
	constructor(host: HTMLElement) {
		this.#host = host;
	}

	/** An empty layer of this size in pixels of the screen. */
	reset(size: SheetSize): void {
		this.#size = size;
		for (const tile of this.#tiles.values()) tile.remove();
		this.#tiles.clear();
	}

	/**
	 * Calls `paint` with the context of each tile that shows a part of `box` (in points of the page; without it every
	 * tile), aimed at the page. `view` is the part of the page that the sheet shows.
	 */
	paint(view: Box, box: Box | undefined, paint: (context: CanvasRenderingContext2D) => void): void {
		this.#each(view, box, true, paint);
	}

	/** Takes the ink in `box` off, or all of it. */
	clear(view: Box, box?: Box): void {
		const { x, y, width, height } = box ?? view;
		this.#each(view, box, false, (context) => {
			context.clearRect(x, y, width, height);
		});
	}

	/** Takes all ink off until there is more. A browser copies every canvas it shows for every frame, changed or not. */
	rest(view: Box): void {
		this.clear(view);
		for (const tile of this.#tiles.values()) tile.hidden = true;
	}

	#each(view: Box, box: Box | undefined, make: boolean, act: (context: CanvasRenderingContext2D) => void): void {
		const { widthPx, heightPx } = this.#size;
		if (widthPx === 0 || heightPx === 0) return;
		const scale = widthPx / view.width;
		const { x, y, width, height } = grow(box ?? view, REACH_PX / scale);
		const columns = Math.ceil(widthPx / TILE_PX);
		const rows = Math.ceil(heightPx / TILE_PX);
		const first = (from: number): number => Math.max(0, Math.floor((from * scale) / TILE_PX));
		const last = (to: number, count: number): number => Math.min(count - 1, Math.floor((to * scale) / TILE_PX));
		for (let row = first(y - view.y); row <= last(y + height - view.y, rows); row += 1)
			for (let column = first(x - view.x); column <= last(x + width - view.x, columns); column += 1) {
				const at = row * columns + column;
				const tile = this.#tiles.get(at) ?? (make ? this.#add(at, column, row) : undefined);
				const context = tile?.getContext('2d');
				if (!tile || !context) continue;
				if (make) tile.hidden = false;
				const corner = { x: view.x + (column * TILE_PX) / scale, y: view.y + (row * TILE_PX) / scale };
				aim(context, { ...view, ...corner }, scale);
				act(context);
			}
	}

	#add(at: number, column: number, row: number): HTMLCanvasElement {
		const { widthPx, heightPx } = this.#size;
		const tile = document.createElement('canvas');
		tile.width = Math.min(TILE_PX, widthPx - column * TILE_PX);
		tile.height = Math.min(TILE_PX, heightPx - row * TILE_PX);
		const share = (part: number, whole: number): string => `${(100 * part) / whole}%`;
		// Set by script because the page forbids style in HTML; in shares, so that a page on paper may have another size.
		tile.style.left = share(column * TILE_PX, widthPx);
		tile.style.top = share(row * TILE_PX, heightPx);
		tile.style.width = share(tile.width, widthPx);
		tile.style.height = share(tile.height, heightPx);
		this.#host.append(tile);
		this.#tiles.set(at, tile);
		return tile;
	}
}
