import type { Tool } from '../ink/stroke';

/** Inks that an eraser treats differently lie in planes of their own; the last plane holds what no eraser takes. */
export const PLANES = { ballpoint: 0, pencil: 1, felt: 2, paper: 3 } as const;
export const PLANE_COUNT = 4;

/** How a tool marks the paper. All figures found by trial, by looking at drawn pages at 200 dpi. */
export interface InkTool {
	readonly plane: number;
	/** Share of the light that the ink takes where it covers fully, before its texture. */
	readonly density: number;
	/** Half the width of the edge's ramp, in pixels; 0.5 is a sharp edge. */
	readonly softPx: number;
	/** How far the paper's tooth moves the edge, from least to most, in pixels. */
	readonly roughPx: number;
	/** Share of the ink that the barest spots of the paper's tooth do not take. */
	readonly grainShare: number;
	/** Size of the tooth's blotches in pixels, and how much of the grain they are, against single pixels. */
	readonly blotchPx: number;
	readonly blotchShare: number;
	/** How far the width sways along the stroke, as a share of it. */
	readonly widthSway: number;
	/** How far the pressure sways along the stroke, as a share of it. */
	readonly pressureSway: number;
	/** How much a second stroke adds over a first: 0 nothing, 1 as light through two filters. */
	readonly buildUp: number;
}

export const INK_TOOLS: Readonly<Record<Exclude<Tool, 'eraser'>, InkTool>> = {
	ballpoint: {
		plane: PLANES.ballpoint,
		density: 0.91,
		softPx: 0.5,
		roughPx: 0.3,
		grainShare: 0.14,
		blotchPx: 3,
		blotchShare: 0.3,
		widthSway: 0.06,
		pressureSway: 0.07,
		buildUp: 0.3
	},
	pencil: {
		plane: PLANES.pencil,
		density: 0.92,
		softPx: 0.7,
		roughPx: 0.9,
		grainShare: 0.5,
		blotchPx: 2.3,
		blotchShare: 0.6,
		widthSway: 0.05,
		pressureSway: 0.06,
		buildUp: 0.25
	},
	felt: {
		plane: PLANES.felt,
		density: 0.91,
		softPx: 1.1,
		roughPx: 0.7,
		grainShare: 0.02,
		blotchPx: 3.7,
		blotchShare: 0,
		widthSway: 0.03,
		pressureSway: 0,
		buildUp: 0.15
	},
	faint: {
		plane: PLANES.ballpoint,
		density: 0.34,
		softPx: 0.6,
		roughPx: 0.3,
		grainShare: 0.4,
		blotchPx: 3,
		blotchShare: 0.4,
		widthSway: 0.06,
		pressureSway: 0.2,
		buildUp: 0.3
	},
	dry: {
		plane: PLANES.ballpoint,
		density: 0.91,
		softPx: 0.5,
		roughPx: 0.3,
		grainShare: 0.14,
		blotchPx: 2.6,
		blotchShare: 0,
		widthSway: 0.08,
		pressureSway: 0.08,
		buildUp: 0.3
	}
};

/** The eraser's edge, as of the inks. */
export const ERASER = { softPx: 2, roughPx: 0, widthSway: 0, pressureSway: 0 } as const;

/**
 * What one pass of the eraser leaves of the ink in each plane, as a share: graphite nearly goes,
 * ballpoint only pales, felt-tip has soaked in. Found by trial; common practice, no source.
 */
export const ERASER_RESIDUE: readonly number[] = [0.72, 0.12, 0.94, 1];
