import { BadInput } from './failures';

/**
 * A PDF of one page with a drawn sheet, through the Chromium that is installed: its text stays text. Throws BadInput where
 * there is none.
 */
export async function pdfOf(
	svg: string,
	{ widthPt, heightPt }: { readonly widthPt: number; readonly heightPt: number }
): Promise<Uint8Array> {
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
		const page = await browser.newPage();
		const style = `@page{size:${widthPt}pt ${heightPt}pt;margin:0}body{margin:0}svg{display:block}`;
		await page.setContent(`<!doctype html><style>${style}</style>${svg}`);
		await page.evaluate('document.fonts.ready');
		return await page.pdf({ preferCSSPageSize: true, printBackground: true, pageRanges: '1' });
	} finally {
		await browser.close();
	}
}
