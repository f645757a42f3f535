import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

const css = readFileSync(join(import.meta.dirname, '../../../src/app.css'), 'utf8');

/** A colour token's value, from its first definition: later ones are for print or more contrast. */
function token(name: string): string {
	const value = new RegExp(`--${name}:\\s*(#[0-9a-f]{6})\\b`).exec(css)?.[1];
	if (value === undefined) throw new Error(`token: expected a colour --${name} in src/app.css, found none`);
	return value;
}

/** Contrast ratio, WCAG 2.2 "contrast ratio" and "relative luminance". */
function contrast(one: string, other: string): number {
	const luminance = (hex: string): number => {
		const [r, g, b] = [1, 3, 5].map((at) => {
			const part = parseInt(hex.slice(at, at + 2), 16) / 255;
			return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
		});
		return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
	};
	const [dark, light] = [luminance(token(one)), luminance(token(other))].sort((a, b) => a - b);
	return (light! + 0.05) / (dark! + 0.05);
}

const SURFACES = ['desk', 'desk-deep', 'paper', 'slip', 'look-paper'];

describe('the colours', () => {
	it.each([
		['ink', SURFACES, 10],
		['ink-soft', SURFACES, 8],
		['ink-quiet', SURFACES, 7],
		['pen', ['paper', 'slip'], 10],
		['look', ['look-paper', 'slip', 'paper'], 10],
		['calm', ['slip', 'paper'], 10],
		['loupe-ink', ['loupe'], 10],
		// Outlines of what can be pressed: WCAG 2.2, 1.4.11.
		['edge', SURFACES, 3]
	])('let %s be read on %j at %d to 1', (ink, surfaces, least) => {
		for (const surface of surfaces) expect([surface, contrast(ink, surface) >= least]).toEqual([surface, true]);
	});
});
