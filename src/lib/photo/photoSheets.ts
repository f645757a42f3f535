import { decodeCode } from '../../codes/decodeCode';
import { encodeCode } from '../../codes/encodeCode';
import type { Election } from '$core/election/election';
import type { GreyImage } from '$core/image';
import { layOut } from '$core/layout/layOutBallot';
import type { PrintedWords } from '$core/layout/words';
import { flattenPhoto, type Flattened, type PhotoSheet } from '$core/photo/flattenPhoto';
import { pyramidOf } from '$core/photo/shrink';
import type { OpenBallot } from '$core/read';
import type { Rulebook } from '$core/rules/rule';
import { layoutVersion } from '$core/sheet/layoutVersion';
import { printSheet } from '$core/sheet/printSheet';
import type { SheetCode } from '$core/sheet/sheetCode';

/** The ballots whose practice sheets are read here. */
export interface PhotoSetup {
	readonly elections: readonly Election[];
	readonly words: PrintedWords;
	readonly rulebook: Rulebook;
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
	readonly #sheets = new Map<string, OpenSheet>();

	constructor(setup: PhotoSetup) {
		this.#setup = setup;
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
			decode: decodeCode
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
			throw new RangeError(`openOf: expected a sheet of this app, got style "${code.style}" of "${code.election}"`);
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
		const layout = layOut(election, style, this.#setup.words, tags, printSize);
		const prints = layout.pages.map(({ page }) => printSheet(layout, page, encodeCode));
		const version = layoutVersion(layout);
		const made = {
			open: { election, layout, rulebook: this.#setup.rulebook, prints },
			pages: prints.map((print) => ({ version, prints: pyramidOf(print, LEAST_PRINT_PX) }))
		};
		this.#sheets.set(key, made);
		return made;
	}
}
