import { writeFileSync } from 'node:fs';
import { encodeCode } from '../../codes/encodeCode';
import { layOut } from '../../core/layout/layOutBallot';
import { drawSheet, PAPERS, type Paper } from '../../core/sheet/drawSheet';
import { BadInput, BadUsage } from '../failures';
import { electionOf, styleOf, wordsOf } from '../files';
import { optionsOf } from '../options';
import { withFonts } from '../sheetFonts';
import { pdfOf } from '../sheetPdf';

const OPTIONS = ['election', 'style', 'languages', 'page', 'paper', 'colour', 'format', 'out'] as const;

/** `sheet`: one page of a practice sheet, ready to print. */
export async function sheet(args: readonly string[]): Promise<number> {
	const { files, values } = optionsOf(args, OPTIONS);
	if (files.length > 0) throw new BadUsage(`sheet: expected no file, got ${files.length}; use --election FILE`);
	const format = oneOf('format', values['format'] ?? 'svg', ['svg', 'pdf']);
	const paper = oneOf('paper', values['paper'] ?? 'letter', Object.keys(PAPERS)) as Paper;
	const colour = oneOf('colour', values['colour'] ?? 'tint', ['tint', 'grey']);
	const out = values['out'];
	if (format === 'pdf' && out === undefined)
		throw new BadUsage('sheet: expected --out FILE for a PDF, got none; a PDF is not text for a terminal');
	const election = electionOf(values['election']);
	const languages = values['languages']?.split(',') ?? election.languages.slice(0, 1);
	for (const language of languages)
		if (!election.languages.includes(language))
			throw new BadInput([`languages: expected some of ${election.languages.join(', ')}, got "${language}"`]);
	const layout = layOut(election, styleOf(election, values['style']), wordsOf(election.languages), languages);
	const page = pageOf(values['page'] ?? '1', layout.pages.length);
	const drawn = withFonts(drawSheet(layout, page, encodeCode, { paper, blackAndWhite: colour === 'grey' }));
	const document = format === 'pdf' ? await pdfOf(drawn, PAPERS[paper]) : drawn;
	if (out === undefined) process.stdout.write(document);
	else save(out, document);
	return 0;
}

function oneOf(name: string, value: string, known: readonly string[]): string {
	if (!known.includes(value)) throw new BadUsage(`sheet: expected --${name} ${known.join(' or ')}, got "${value}"`);
	return value;
}

function pageOf(value: string, pages: number): number {
	const page = Number(value);
	if (!Number.isInteger(page) || page < 1 || page > pages)
		throw new BadInput([`page: expected a page from 1 to ${pages}, got "${value}"`]);
	return page;
}

function save(out: string, document: string | Uint8Array): void {
	try {
		writeFileSync(out, document);
	} catch (error) {
		throw new BadInput([`${out}: cannot be written: ${error instanceof Error ? error.message : String(error)}`]);
	}
}
