import type { Layout, PrintSize } from '../layout/layout';
import { layoutVersion } from './layoutVersion';

/** What the code on a practice sheet says: which page of which layout this is. It never holds anything about a voter. */
export interface SheetCode {
	readonly election: string;
	readonly style: string;
	/** From 1. */
	readonly page: number;
	/** Languages printed on the sheet, main one first. */
	readonly languages: readonly string[];
	readonly printSize: PrintSize;
	readonly version: string;
}

/** The first word of every code of ours, with the version of this format. No other code begins so. */
const PREFIX = 'FAIRHAND1';

/** Only characters that a QR code packs two in 11 bits: capitals, digits and a few signs. */
const FORM =
	/^FAIRHAND1\/([A-Z0-9]+(?:-[A-Z0-9]+)*)\/([A-Z0-9]+(?:-[A-Z0-9]+)*)\/([1-9][0-9]{0,2})(L?)\/([A-Z0-9-]+(?:\+[A-Z0-9-]+)?)\/([A-Z0-9]{1,7})$/;

/** The code of one page of a layout. Throws a RangeError for a page that is not there. */
export function sheetCodeOf(layout: Layout, page: number): SheetCode {
	if (!layout.pages.some((known) => known.page === page))
		throw new RangeError(`sheetCodeOf: expected a page from 1 to ${layout.pages.length}, got ${page}`);
	const { election, style, languages, printSize } = layout;
	return { election, style, page, languages, printSize, version: layoutVersion(layout) };
}

/**
 * The text that is printed as a code; an L behind the page's number says large print. Ids and language tags are written in capitals, which they never have of their own.
 */
export function writeSheetCode({ election, style, page, languages, printSize, version }: SheetCode): string {
	const number = printSize === 'large' ? `${page}L` : String(page);
	return [PREFIX, election, style, number, languages.join('+'), version].join('/').toUpperCase();
}

/** What a code's text says; undefined where the text is not ours. Language tags come back in small letters. */
export function parseSheetCode(text: string): SheetCode | undefined {
	const found = FORM.exec(text);
	if (!found) return undefined;
	const [, election = '', style = '', page = '', large = '', languages = '', version = ''] = found;
	return {
		election: election.toLowerCase(),
		style: style.toLowerCase(),
		page: Number(page),
		languages: languages.toLowerCase().split('+'),
		printSize: large === '' ? 'ordinary' : 'large',
		version
	};
}
