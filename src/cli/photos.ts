import { decodeCode } from '../codes/decodeCode';
import { encodeCode } from '../codes/encodeCode';
import type { Election } from '../core/election/election';
import type { GreyImage } from '../core/image';
import { layOut } from '../core/layout/layOutBallot';
import type { Layout } from '../core/layout/layout';
import { flattenPhoto, type Flattened, type PhotoSheet } from '../core/photo/flattenPhoto';
import { pyramidOf } from '../core/photo/shrink';
import type { OpenBallot } from '../core/read';
import type { Rulebook } from '../core/rules/rule';
import { layoutVersion } from '../core/sheet/layoutVersion';
import { printSheet } from '../core/sheet/printSheet';
import type { SheetCode } from '../core/sheet/sheetCode';
import { wordsOf } from './files';

/** Shorter side of the smallest picture of a print, in pixels: an eighth of a page. */
const LEAST_PRINT_PX = 200;

interface OpenSheet {
	readonly open: OpenBallot;
	readonly pages: readonly PhotoSheet[];
}

/** Reads photos of one election's practice sheets; each style and set of languages is laid out once. */
export class PhotoReader {
	readonly #election: Election;
	readonly #rulebook: Rulebook;
	readonly #sheets = new Map<string, OpenSheet>();

	constructor(election: Election, rulebook: Rulebook) {
		this.#election = election;
		this.#rulebook = rulebook;
	}

	/** The grey page in a photo, or why it is not read. */
	flatten(photo: GreyImage): Flattened {
		return flattenPhoto(photo, {
			election: this.#election.id,
			sheetOf: (code) => this.#sheetOf(code)?.pages[code.page - 1],
			decode: decodeCode
		});
	}

	/** What the page of a code is read with. Throws a RangeError for a code that `flatten` did not give. */
	openOf(code: SheetCode): OpenBallot {
		const sheet = this.#sheetOf(code);
		if (!sheet) throw new RangeError(`openOf: expected a style of the election, got "${code.style}"`);
		return sheet.open;
	}

	#sheetOf({ style, languages, printSize }: SheetCode): OpenSheet | undefined {
		const election = this.#election;
		// Codes have no small letters, so tags are compared without regard to them.
		const tags = languages.map((tag) => election.languages.find((known) => known.toLowerCase() === tag));
		if (!election.styles.some(({ id }) => id === style) || tags.length > 2) return undefined;
		if (!tags.every((tag) => tag !== undefined)) return undefined;
		const key = `${style} ${printSize} ${tags.join(' ')}`;
		const known = this.#sheets.get(key);
		if (known) return known;
		const layout: Layout = layOut(election, style, wordsOf(election.languages), tags, printSize);
		const prints = layout.pages.map(({ page }) => printSheet(layout, page, encodeCode));
		const version = layoutVersion(layout);
		const made = {
			open: { election, layout, rulebook: this.#rulebook, prints },
			pages: prints.map((print) => ({ version, prints: pyramidOf(print, LEAST_PRINT_PX) }))
		};
		this.#sheets.set(key, made);
		return made;
	}
}
