import type { Election } from '../election/election';
import type { GreyImage } from '../image';
import { layOut } from '../layout/layOutBallot';
import type { Layout } from '../layout/layout';
import type { PrintedWords } from '../layout/words';
import type { OpenBallot } from '../read';
import type { Rulebook } from '../rules/rule';
import { layoutVersion } from '../sheet/layoutVersion';
import { printSheet } from '../sheet/printSheet';
import type { SheetCode } from '../sheet/sheetCode';
import type { EncodeCode } from '../sheet/signs';
import { flattenPhoto, type Flattened, type PhotoSheet } from './flattenPhoto';
import type { DecodeCode } from './foundCode';
import { pyramidOf } from './shrink';

/** The ballots whose practice sheets are read. Plain data, so that a worker can be told. */
export interface PhotoSetup {
	readonly elections: readonly Election[];
	readonly words: PrintedWords;
	readonly rulebook: Rulebook;
}

/** Writes the code of a sheet and finds it in a photo. */
export interface Codes {
	readonly encode: EncodeCode;
	readonly decode: DecodeCode;
}

/** Shorter side of the smallest picture of a print, in pixels: an eighth of a page. */
const LEAST_PRINT_PX = 200;

interface OpenSheet {
	readonly open: OpenBallot;
	readonly pages: readonly PhotoSheet[];
}

/** The practice sheets that codes name; each is laid out and printed once, when it is first seen. */
export class PhotoSheets {
	readonly #setup: PhotoSetup;
	readonly #codes: Codes;
	readonly #sheets = new Map<string, OpenSheet>();

	constructor(setup: PhotoSetup, codes: Codes) {
		this.#setup = setup;
		this.#codes = codes;
	}

	/** The grey page in a photo, or why it is not read. `onfound`: called when the code was read, before the long part. */
	flatten(photo: GreyImage, onfound: () => void = () => undefined): Flattened {
		const first = this.#flattenFor(this.#setup.elections[0], photo, onfound);
		if (!('refused' in first) || first.refused !== 'other-election') return first;
		const other = this.#setup.elections.find(({ id }) => id === first.code?.election);
		return other ? this.#flattenFor(other, photo, onfound) : first;
	}

	#flattenFor(election: Election | undefined, photo: GreyImage, onfound: () => void): Flattened {
		return flattenPhoto(photo, {
			election: election?.id ?? '',
			sheetOf: (code) => {
				onfound();
				return this.sheetOf(code);
			},
			decode: this.#codes.decode
		});
	}

	/** The printed page that a code names; undefined where there is none. */
	sheetOf(code: SheetCode): PhotoSheet | undefined {
		return this.#openSheet(code)?.pages[code.page - 1];
	}

	/** What the page of a code is read with. Throws a RangeError for a code that `flatten` did not give. */
	openOf(code: SheetCode): OpenBallot {
		const sheet = this.#openSheet(code);
		if (!sheet)
			throw new RangeError(`openOf: expected a sheet of these elections, got "${code.style}" of "${code.election}"`);
		return sheet.open;
	}

	#openSheet({ election: id, style, languages, printSize }: SheetCode): OpenSheet | undefined {
		const election = this.#setup.elections.find((known) => known.id === id);
		// Codes have no small letters, so tags are compared without regard to them.
		const tags = languages.map((tag) => election?.languages.find((known) => known.toLowerCase() === tag));
		if (!election?.styles.some((known) => known.id === style) || tags.length > 2) return undefined;
		if (!tags.every((tag) => tag !== undefined)) return undefined;
		const key = [id, style, printSize, ...tags].join(' ');
		const known = this.#sheets.get(key);
		if (known) return known;
		const layout = layoutOf(election, style, this.#setup.words, tags, printSize);
		if (!layout) return undefined;
		const prints = layout.pages.map(({ page }) => printSheet(layout, page, this.#codes.encode));
		const version = layoutVersion(layout);
		const made = {
			open: { election, layout, rulebook: this.#setup.rulebook, prints },
			pages: prints.map((print) => ({ version, prints: pyramidOf(print, LEAST_PRINT_PX) }))
		};
		this.#sheets.set(key, made);
		return made;
	}
}

/** The layout; undefined where a contest is too tall for a page, so that no such sheet was ever printed. */
function layoutOf(...sheet: Parameters<typeof layOut>): Layout | undefined {
	try {
		return layOut(...sheet);
	} catch (error) {
		if (error instanceof RangeError) return undefined;
		throw error;
	}
}
