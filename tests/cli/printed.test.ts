import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, test, vi } from 'vitest';
import { encodeCode } from '../../src/codes/encodeCode';
import { layoutOf } from '../../src/cli/files';
import { FileReader } from '../../src/cli/fileReader';
import { withPdfPrinter } from '../../src/cli/sheetPdf';
import { compareDeck, type SheetReading } from '$core/deck/compareDeck';
import { drawDeckSheet } from '$core/deck/drawDeckSheet';
import { planDeck } from '$core/deck/planDeck';
import { county } from '$core/election/demo';
import type { PrintSize } from '$core/layout/layout';
import { PAPERS } from '$core/sheet/drawSheet';
import { ensureBrowser } from '../support/browser.mjs';
import { ensurePoppler, picturesOfPdf } from '../support/poppler';

// A browser prints, another program draws, and the reader reads photos: slow where other work shares the processor.
vi.setConfig({ testTimeout: 600_000, hookTimeout: 900_000 });

const hasPoppler = ensurePoppler();
beforeAll(() => {
	ensureBrowser();
});

interface Record {
	readonly refused?: SheetReading['refused'];
	readonly contests?: readonly {
		readonly contest: string;
		readonly machine: { readonly targets: readonly Omit<NonNullable<SheetReading['targets']>[number], 'contest'>[] };
	}[];
}

const reader = new FileReader({
	election: undefined,
	style: undefined,
	languages: undefined,
	printSize: 'ordinary',
	rulebook: undefined,
	format: 'record'
});

/** How far the scores of one mark may lie apart, printed in two sizes; the widest seen was 0.018. */
const MOST_SCORE_APART = 0.03;

/** What is read of a picture of a printed sheet. */
function readingOf(file: string): SheetReading {
	const { refused, contests = [] } = JSON.parse(reader.read(file).line) as Record;
	const targets = contests.flatMap(({ contest, machine }) => machine.targets.map((target) => ({ contest, ...target })));
	return refused ? { file, refused } : { file, targets };
}

/**
 * Sheets with known marks, printed through Chromium at full size and at 91 %, as a printer set to "fit to page" does, and
 * rendered by poppler: neither is ours.
 */
describe.skipIf(!hasPoppler)('a sheet that was printed to PDF', () => {
	const folder = mkdtempSync(join(tmpdir(), 'fairhand-printed-'));

	test.each<[PrintSize, string, string]>([
		['ordinary', 'ferrystead', 'en'],
		['large', 'cairnwold', 'es']
	])('in %s print is read as it was marked, at 100 % and at 91 %: %s, %s', async (printSize, style, language) => {
		const layout = layoutOf(county, style, [language], printSize);
		const all = planDeck(layout, county);
		// A page with targets filled, and two with marks of the most kinds.
		const kinds = ({ targets }: (typeof all)[number]): number => new Set(targets.map(({ drawn }) => drawn)).size;
		const filled = all.find(({ strokes }) => strokes.length > 0)!;
		const sheets = [filled, ...[...all].sort((a, b) => kinds(b) - kinds(a)).slice(0, 2)];
		const drawn = sheets.map((sheet) => drawDeckSheet(layout, sheet, encodeCode, { blackAndWhite: true }));
		const readings = await withPdfPrinter(async (printPdf) => {
			const scans: SheetReading[][] = [];
			for (const scale of [1, 0.91]) {
				const file = join(folder, `${printSize}-${scale}.pdf`);
				writeFileSync(file, await printPdf(drawn, { ...PAPERS.letter, scale }));
				scans.push(picturesOfPdf(file, 200).map(readingOf));
			}
			return scans;
		});
		const [full, smaller] = readings.map((scans) => compareDeck({ sheets }, scans));
		for (const report of [full!, smaller!]) {
			expect(report).toMatchObject({ matchedBy: 'order', refused: [], notRead: [], differences: [] });
			expect(report.targets).toBe(sheets.flatMap(({ targets }) => targets).length);
		}
		// Laid beside another sheet's marks the same readings do not hold.
		const [front, next, ...rest] = sheets;
		expect(compareDeck({ sheets: [next!, front!, ...rest] }, readings[0]!).differences).not.toEqual([]);
		for (const [sheet, { targets }] of sheets.entries()) {
			const [one, other] = readings.map((scans) => scans[sheet]!.targets!);
			for (const [place, { choice }] of targets.entries()) {
				const [first, second] = [one![place]!, other![place]!];
				expect([first.choice, second.choice]).toEqual([choice, choice]);
				expect(Math.abs(first.score - second.score), choice).toBeLessThanOrEqual(MOST_SCORE_APART);
				expect(second.level, choice).toBe(first.level);
			}
		}
	});
});
