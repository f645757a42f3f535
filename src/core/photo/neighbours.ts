/** What a place without a measure near it weighs against the whole page's. */
const NOTHING_WEIGHS = 0.05;

/** How far neighbours are looked for, in multiples of `softPx`, and in how many steps the bell of their weights is kept. */
const FAR = 2.5;
const BELL_STEPS = 64;
const BELL = Float64Array.from({ length: Math.ceil(2 * FAR * FAR * BELL_STEPS) + 1 }, (_, i) =>
	Math.exp((-0.5 * i) / BELL_STEPS)
);

/** Measures sorted into squares, so that only those around a place are gone through. */
export class Neighbours {
	private readonly columns: number;
	private readonly squares: readonly (readonly number[])[];
	private readonly far: number;

	constructor(
		private readonly places: readonly { readonly x: number; readonly y: number }[],
		readonly widthPx: number,
		readonly heightPx: number,
		readonly softPx: number
	) {
		this.far = FAR * softPx;
		this.columns = Math.ceil(widthPx / this.far) + 1;
		const squares: number[][] = Array.from({ length: this.columns * (Math.ceil(heightPx / this.far) + 1) }, () => []);
		places.forEach(({ x, y }, i) =>
			squares[Math.floor(y / this.far) * this.columns + Math.floor(x / this.far)]?.push(i)
		);
		this.squares = squares;
	}

	/** What is measured around one measure, without itself. */
	averageAround(measure: number, values: readonly number[], weights: readonly number[]): number {
		const { x, y } = this.places[measure] as { readonly x: number; readonly y: number };
		return this.averageAt(x, y, values, weights, measure);
	}

	/** The mean of the measures around a place, each weighing less the further off it is; without the one at `except`. */
	averageAt(x: number, y: number, values: readonly number[], weights: readonly number[], except = -1): number {
		const { far, places } = this;
		const scale = BELL_STEPS / (this.softPx * this.softPx);
		const [column, row] = [Math.floor(x / far), Math.floor(y / far)];
		let weighed = NOTHING_WEIGHS;
		let sum = 0;
		for (let r = Math.max(0, row - 1); r <= row + 1; r++)
			for (let c = Math.max(0, column - 1); c <= Math.min(this.columns - 1, column + 1); c++) {
				const square = this.squares[r * this.columns + c];
				if (!square) continue;
				for (const i of square) {
					const one = places[i] as { readonly x: number; readonly y: number };
					const ax = one.x - x;
					const ay = one.y - y;
					if (i === except || ax > far || ax < -far || ay > far || ay < -far) continue;
					const weight = (weights[i] as number) * (BELL[((ax * ax + ay * ay) * scale) | 0] as number);
					weighed += weight;
					sum += weight * (values[i] as number);
				}
			}
		return sum / weighed;
	}
}
