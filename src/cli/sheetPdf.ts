import type { Browser } from 'playwright-core';
import { BadInput } from './failures';
import { fontStyle } from './sheetFonts';

export interface PdfPaper {
	readonly widthPt: number;
	readonly heightPt: number;
	/** Size of the print as a share of the drawn one, as a printer set to "fit to page" takes. Default 1. */
	readonly scale?: number;
}

/** Prints drawn sheets to PDF, one page each, in order. */
export type PrintPdf = (svgs: readonly string[], paper: PdfPaper) => Promise<Uint8Array>;

/**
 * Does `work` with a printer of PDFs: the Chromium that is installed, so that text stays text. Throws BadInput where there
 * is none.
 */
export async function withPdfPrinter<Result>(work: (print: PrintPdf) => Promise<Result>): Promise<Result> {
	// Loaded only here: nothing else on the command line needs a browser.
	const { chromium } = await import('playwright-core');
	const { launchOptions } = await import('../../tests/support/browser.mjs');
	const browser = await chromium.launch(launchOptions()).catch((error: unknown) => {
		const [reason] = String(error).split('\n');
		throw new BadInput([
			`format: expected an installed Chromium for a PDF, found none that starts (${reason ?? ''}); set CHROMIUM_PATH or use --format svg`
		]);
	});
	try {
		return await work((svgs, paper) => printPdf(browser, svgs, paper));
	} finally {
		await browser.close();
	}
}

async function printPdf(browser: Browser, svgs: readonly string[], paper: PdfPaper): Promise<Uint8Array> {
	const { widthPt, heightPt, scale = 1 } = paper;
	const page = await browser.newPage();
	try {
		const style = `@page{size:${widthPt}pt ${heightPt}pt;margin:0}body{margin:0}svg{display:block}svg+svg{break-before:page}`;
		await page.setContent(`<!doctype html><style>${style}${fontStyle()}</style>${svgs.join('')}`);
		await page.evaluate('document.fonts.ready');
		return await page.pdf({ preferCSSPageSize: true, printBackground: true, pageRanges: `1-${svgs.length}`, scale });
	} finally {
		await page.close();
	}
}
