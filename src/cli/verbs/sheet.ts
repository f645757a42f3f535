import { join } from 'node:path';
import { encodeCode } from '../../codes/encodeCode';
import type { Layout, PrintSize } from '../../core/layout/layout';
import { drawSheet, PAPERS, type Paper, type SheetOptions } from '../../core/sheet/drawSheet';
import { layoutName } from '../../core/sheet/layoutName';
import { BadInput, BadUsage } from '../failures';
import { electionOf, languagesOf, layoutOf, styleOf } from '../files';
import { oneOf, optionsOf } from '../options';
import { print } from '../print';
import { makeFolder, save } from '../save';
import { withFonts } from '../sheetFonts';
import { withPdfPrinter } from '../sheetPdf';

const OPTIONS = ['election', 'style', 'languages', 'page', 'paper', 'colour', 'format', 'out', 'stack'] as const;
const PAPER_NAMES = Object.keys(PAPERS) as Paper[];

interface Wish {
	readonly format: 'svg' | 'pdf';
	readonly printSize: PrintSize;
	readonly drawing: SheetOptions & { readonly paper: Paper };
}

/** `sheet`: one page of a practice sheet, ready to print; with `--stack DIR` every style in every language, all pages. */
export async function sheet(args: readonly string[]): Promise<number> {
	const { files, values, flags } = optionsOf(args, OPTIONS, ['large']);
	if (files.length > 0) throw new BadUsage(`sheet: expected no file, got ${files.length}; use --election FILE`);
	const wish: Wish = {
		format: oneOf('sheet', 'format', values['format'] ?? 'svg', ['svg', 'pdf']),
		printSize: flags.has('large') ? 'large' : 'ordinary',
		drawing: {
			paper: oneOf('sheet', 'paper', values['paper'] ?? 'letter', PAPER_NAMES),
			blackAndWhite: oneOf('sheet', 'colour', values['colour'] ?? 'tint', ['tint', 'grey']) === 'grey'
		}
	};
	const folder = values['stack'];
	if (folder === undefined) await onePage(values, wish);
	else {
		const both = ['page', 'out'].find((name) => values[name] !== undefined);
		if (both !== undefined)
			throw new BadUsage(
				`sheet: expected --stack DIR or --${both}, got both; a stack has every page and names its files`
			);
		await stack(folder, values, wish);
	}
	return 0;
}

async function onePage(values: Readonly<Record<string, string | undefined>>, wish: Wish): Promise<void> {
	const { format, drawing, printSize } = wish;
	const out = values['out'];
	if (format === 'pdf' && out === undefined)
		throw new BadUsage('sheet: expected --out FILE for a PDF, got none; a PDF is not text for a terminal');
	const election = electionOf(values['election']);
	const languages = languagesOf(election, values['languages']);
	const layout = layoutOf(election, styleOf(election, values['style']), languages, printSize);
	const drawn = drawSheet(layout, pageOf(values['page'] ?? '1', layout.pages.length), encodeCode, drawing);
	const document =
		format === 'pdf' ? await withPdfPrinter((printPdf) => printPdf([drawn], PAPERS[drawing.paper])) : withFonts(drawn);
	if (out === undefined) process.stdout.write(document);
	else save(out, document);
}

/** A file for each page, or as PDF one for each style and language; a line on standard output for each file. */
async function stack(
	folder: string,
	values: Readonly<Record<string, string | undefined>>,
	{ format, printSize, drawing }: Wish
): Promise<void> {
	const election = electionOf(values['election']);
	const styles =
		values['style'] === undefined ? election.styles.map(({ id }) => id) : [styleOf(election, values['style'])];
	const languages =
		values['languages'] === undefined
			? election.languages.map((language) => [language])
			: [languagesOf(election, values['languages'])];
	const layouts = styles.flatMap((style) => languages.map((tags) => layoutOf(election, style, tags, printSize)));
	makeFolder(folder);
	const write = (layout: Layout, pages: readonly number[], ending: string, document: string | Uint8Array): void => {
		const file = join(folder, `${layoutName(layout)}${ending}`);
		save(file, document);
		print({ file, style: layout.style, languages: layout.languages, printSize, pages });
	};
	if (format === 'svg') {
		for (const layout of layouts)
			for (const { page } of layout.pages)
				write(layout, [page], `-page-${page}.svg`, withFonts(drawSheet(layout, page, encodeCode, drawing)));
		return;
	}
	await withPdfPrinter(async (printPdf) => {
		for (const layout of layouts) {
			const pages = layout.pages.map(({ page }) => page);
			const drawn = pages.map((page) => drawSheet(layout, page, encodeCode, drawing));
			write(layout, pages, '.pdf', await printPdf(drawn, PAPERS[drawing.paper]));
		}
	});
}

function pageOf(value: string, pages: number): number {
	const page = Number(value);
	if (!Number.isInteger(page) || page < 1 || page > pages)
		throw new BadInput([`page: expected a page from 1 to ${pages}, got "${value}"`]);
	return page;
}
