import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { county } from '../../src/core/election/demo';
import { PT_PER_PX, type GreyImage } from '../../src/core/image';
import { OUTLINE_WIDTH_PT } from '../../src/core/layout/targetOutline';
import type { TargetLevel } from '../../src/core/marks/mark';
import { levelOf, measureTarget } from '../../src/core/marks/measureTarget';
import { findResidual } from '../../src/core/marks/residual';

/**
 * Printed bubbles that people filled or left empty, cut from phone photos, measured as targets: real pencil, pen and
 * paper, where all else that is measured here was drawn by us. `npx tsx tests/bench/photoBubbles.ts FOLDER`.
 *
 * A tile is 40 x 40 pixels with a bubble 31 across. What is measured is the middle 0.7 of it, inside its broad printed
 * ring; the tile's paper is brought to white, as a photo's is. Bubbles of one set hold a printed letter that no print
 * here can take away: a letter is ink to the reader. Its empty bubbles are told, not judged.
 */
const folder = process.argv[2] ?? process.env['MARKS_DATA'] ?? '../shared/data/marks';
const file = join(folder, 'photo-bubbles.open.json');
if (!existsSync(file)) {
	process.stdout.write(`no photos of bubbles in ${folder}: nothing measured\n`);
	process.exit(0);
}

interface Tile {
	readonly tool: string;
	readonly label: 'filled' | 'empty';
	readonly tile: string;
}

const TILE_PX = 40;
const BUBBLE_PX = 31;
const MEASURED_SHARE = 0.7;
const SIDE_PX = 160;
/** So many of a tile's pixels, from the lightest, are taken for paper. */
const PAPER_SHARE = 0.1;

const LIMITS = { filledDark: 0.98, filledEmpty: 0, emptyDark: 0 };
const isLettered = ({ tool }: Tile): boolean => tool.includes('printed letter');

const print: GreyImage = { width: SIDE_PX, height: SIDE_PX, data: new Uint8Array(SIDE_PX * SIDE_PX).fill(255) };
const widthPt = (BUBBLE_PX * MEASURED_SHARE + 1) * PT_PER_PX + 2 * OUTLINE_WIDTH_PT;
const corner = (SIDE_PX - TILE_PX) / 2;
const middlePt = (SIDE_PX / 2) * PT_PER_PX;
const target = { x: middlePt - widthPt / 2, y: middlePt - widthPt / 2, width: widthPt, height: widthPt };

function levelIn({ tile }: Tile): TargetLevel {
	const grey = Buffer.from(tile, 'base64');
	const paper = [...grey].sort((a, b) => b - a)[Math.floor(grey.length * PAPER_SHARE)] ?? 255;
	const data = new Uint8Array(SIDE_PX * SIDE_PX).fill(255);
	for (let y = 0; y < TILE_PX; y++)
		for (let x = 0; x < TILE_PX; x++)
			data[(corner + y) * SIDE_PX + corner + x] = Math.min(
				255,
				Math.round(((grey[y * TILE_PX + x] ?? 0) * 255) / paper)
			);
	const page = { width: SIDE_PX, height: SIDE_PX, data };
	const residual = findResidual(page, print, { xPx: 0, yPx: 0, widthPx: SIDE_PX, heightPx: SIDE_PX });
	return levelOf(measureTarget(residual, 'oval', target).score, county.thresholds);
}

const { tiles } = JSON.parse(readFileSync(file, 'utf8')) as { tiles: readonly Tile[] };
const read = tiles.map((tile) => ({ ...tile, level: levelIn(tile) }));
const share = (list: readonly { readonly level: TargetLevel }[], level: TargetLevel): number =>
	list.filter((one) => one.level === level).length / Math.max(1, list.length);
const percent = (value: number): string => `${(100 * value).toFixed(1).padStart(5)} %`;

process.stdout.write(`photographed bubbles, ${tiles.length} tiles, measured inside ${MEASURED_SHARE} of their width\n`);
process.stdout.write(`${'tool'.padEnd(44)}${'label'.padEnd(9)}    n     dark    unsure     empty\n`);
for (const tool of [...new Set(tiles.map((tile) => tile.tool))])
	for (const label of ['filled', 'empty'] as const) {
		const own = read.filter((one) => one.tool === tool && one.label === label);
		const shares = (['dark', 'unsure', 'empty'] as const).map((level) => percent(share(own, level))).join('   ');
		process.stdout.write(
			`${tool.slice(0, 42).padEnd(44)}${label.padEnd(9)}${String(own.length).padStart(5)}  ${shares}\n`
		);
	}
const filled = read.filter(({ label }) => label === 'filled');
const plain = filled.filter((one) => !isLettered(one));
const empty = read.filter((one) => one.label === 'empty' && !isLettered(one));
const isGood =
	share(plain, 'dark') >= LIMITS.filledDark &&
	share(filled, 'empty') <= LIMITS.filledEmpty &&
	share(empty, 'dark') <= LIMITS.emptyDark;
process.stdout.write(
	`limits: filled never empty; without a printed letter, filled dark ${percent(LIMITS.filledDark)} and empty never dark: ${isGood ? 'PASS' : 'FAIL'}\n`
);
if (!isGood) process.exitCode = 1;
