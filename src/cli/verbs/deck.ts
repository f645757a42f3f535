import { join } from 'node:path';
import { encodeCode } from '../../codes/encodeCode';
import { compareDeck } from '../../core/deck/compareDeck';
import { drawDeckSheet } from '../../core/deck/drawDeckSheet';
import { planDeck } from '../../core/deck/planDeck';
import { PAPERS, type Paper } from '../../core/sheet/drawSheet';
import { deckFile, deckIn, readingsIn } from '../deckFiles';
import { BadUsage } from '../failures';
import { electionOf, languagesOf, layoutOf, styleOf } from '../files';
import { oneOf, optionsOf } from '../options';
import { print } from '../print';
import { makeFolder, save } from '../save';
import { withFonts } from '../sheetFonts';
import { withPdfPrinter } from '../sheetPdf';

const OPTIONS = ['election', 'style', 'languages', 'paper', 'format', 'out'] as const;

/**
 * `deck --out DIR`: sheets with known marks and what they were drawn as; `deck --compare EXPECTED READINGS`: what the
 * reader made of them. A check of this reader, not a logic and accuracy test of voting equipment.
 */
export async function deck(args: readonly string[]): Promise<number> {
	const { files, values, flags } = optionsOf(args, OPTIONS, ['large', 'compare']);
	if (flags.has('compare')) {
		const [expected, readings] = files;
		if (expected === undefined || readings === undefined || files.length > 2)
			throw new BadUsage(`deck: expected --compare EXPECTED READINGS, two files, got ${files.length}`);
		return compare(expected, readings);
	}
	if (files.length > 0) throw new BadUsage(`deck: expected no file without --compare, got ${files.length}`);
	const folder = values['out'];
	if (folder === undefined) throw new BadUsage('deck: expected --out DIR, got none');
	const format = oneOf('deck', 'format', values['format'] ?? 'svg', ['svg', 'pdf']);
	const paper = oneOf('deck', 'paper', values['paper'] ?? 'letter', Object.keys(PAPERS) as Paper[]);
	const election = electionOf(values['election']);
	const languages = languagesOf(election, values['languages']);
	const style = styleOf(election, values['style']);
	const layout = layoutOf(election, style, languages, flags.has('large') ? 'large' : 'ordinary');
	const sheets = planDeck(layout, election);
	const drawn = sheets.map((sheet) => drawDeckSheet(layout, sheet, encodeCode, { paper, blackAndWhite: true }));
	makeFolder(folder);
	if (format === 'pdf') {
		const file = join(folder, 'deck.pdf');
		save(file, await withPdfPrinter((printPdf) => printPdf(drawn, PAPERS[paper])));
		print({ file, sheets: sheets.map(({ name }) => name) });
	} else
		for (const [i, { name }] of sheets.entries()) {
			const file = join(folder, `${name}.svg`);
			save(file, withFonts(drawn[i] ?? ''));
			print({ file, sheets: [name] });
		}
	const expected = join(folder, 'expected.json');
	save(expected, `${JSON.stringify(deckFile(layout, sheets), undefined, '\t')}\n`);
	print({ file: expected });
	return 0;
}

/** A line for each difference and one that sums up. 1 when a mark was read as none or none as a mark, or a sheet not at all. */
async function compare(expectedFile: string, readingsFile: string): Promise<number> {
	const known = deckIn(expectedFile);
	const { differences, ...rest } = compareDeck(known, await readingsIn(readingsFile, known));
	for (const difference of differences) print(difference);
	const flips = differences.filter(({ isFlip }) => isFlip).length;
	const unseen = differences.filter(({ level }) => level === 'missing').length;
	const { targets, levels, matchedBy, notRead, notOfDeck, refused } = rest;
	print({
		summary: {
			sheets: known.sheets.length,
			targets,
			differences: differences.length,
			flips,
			unseen,
			notRead,
			notOfDeck,
			refused,
			matchedBy,
			levels
		}
	});
	const problems = [
		...(flips > 0 ? [`${flips} targets flipped between dark and empty`] : []),
		...(unseen > 0 ? [`${unseen} targets are not in the readings`] : []),
		...(notRead.length > 0 ? [`${notRead.length} sheets have no reading`] : []),
		...(refused.length > 0 ? [`${refused.length} sheets were refused`] : [])
	];
	if (problems.length > 0) process.stderr.write(`fairhand: deck: ${problems.join('; ')}\n`);
	return problems.length > 0 ? 1 : 0;
}
