import { closeSync, openSync, readFileSync, readSync, statSync } from 'node:fs';
import { decodeCode } from '../codes/decodeCode';
import { encodeCode } from '../codes/encodeCode';
import '../core/layout/font/bundled';
import { codesOfReading } from '../core/answers/codesOfReading';
import type { Election } from '../core/election/election';
import { checkInk } from '../core/ink/checkInk';
import type { PageInk } from '../core/ink/stroke';
import type { PrintSize } from '../core/layout/layout';
import { inkPage } from '../core/page/inkPage';
import { printPage } from '../core/page/printPage';
import { LARGEST_PHOTO_BYTES } from '../core/photo/photoFile';
import { PhotoSheets } from '../core/photo/photoSheets';
import { castVoteRecord } from '../core/record/castVoteRecord';
import { readBallot, type BallotReading, type OpenBallot } from '../core/read';
import type { Rulebook } from '../core/rules/rule';
import { electionOf, languagesOf, layoutOf, photoWords, rulebookOf, styleOf, wordsOf } from './files';
import { greyOf, isPicture } from './picture';
import { recordOf } from './record';

/** An ink file of a very full ballot is about 1 MB; this leaves room and keeps a wrong file out of memory. */
const LARGEST_INK_BYTES = 24 * 1024 * 1024;

/** How files are read. Plain data, so that a worker thread can be told. */
export interface ReadSettings {
	readonly election: string | undefined;
	/** What ink files are on where they do not say. A photo's own code says it. */
	readonly style: string | undefined;
	readonly languages: string | undefined;
	readonly printSize: PrintSize;
	readonly rulebook: string | undefined;
	/**
	 * `record`: marks, readings and advice. `codes`: mistake codes alone; no contest, no choice, no vote. `cvr`: a Cast Vote
	 * Record report of NIST SP 1500-103, whose record carries the name of the file.
	 */
	readonly format: 'record' | 'codes' | 'cvr';
}

/** Why a file was not read: a code to count by and a line for people. */
interface Refused {
	readonly code: string;
	readonly message: string;
}

/** What is printed of one file: a JSON document on one line. */
export interface FileLine {
	readonly file: string;
	readonly line: string;
	/** Why it was not read, for standard error. */
	readonly refused?: string;
}

interface Read {
	readonly reading: BallotReading;
	readonly open: OpenBallot;
}
type Result = { readonly refused: Refused } | Read;

/** Reads ink files and photos one after the other. Keeps layouts and prints, nothing of any file. */
export class FileReader {
	readonly settings: ReadSettings;
	readonly #election: Election;
	readonly #rulebook: Rulebook;
	readonly #style: string;
	readonly #languages: readonly string[];
	readonly #opened = new Map<string, OpenBallot>();
	#sheets: PhotoSheets | undefined;

	/** Throws BadInput for an election, style, language or rulebook that is not there. */
	constructor(settings: ReadSettings) {
		this.settings = settings;
		this.#election = electionOf(settings.election);
		this.#rulebook = rulebookOf(settings.rulebook ?? this.#election.rulebook);
		this.#style = styleOf(this.#election, settings.style);
		this.#languages = languagesOf(this.#election, settings.languages);
	}

	/** Never throws: one file must not end a batch. */
	read(file: string): FileLine {
		try {
			const result = this.#resultOf(file);
			if ('refused' in result) return refusedLine(file, result.refused.code, result.refused.message);
			return { file, line: JSON.stringify(documentOf(this.settings.format, file, result)) };
		} catch (error) {
			return failedLine(file, error);
		}
	}

	#resultOf(file: string): Result {
		const content = contentOf(file);
		if ('refused' in content) return content;
		return isPicture(content.bytes) ? this.#readPhoto(content.bytes) : this.#readInk(content.bytes);
	}

	#readInk(bytes: Buffer): Result {
		const election = this.#election;
		let document: unknown;
		try {
			document = JSON.parse(bytes.toString('utf8'));
		} catch {
			return refuse('not-json', 'expected ink as JSON, got something else; check that the file is whole');
		}
		const { ink, problem } = checkInk(document);
		if (!ink) return { refused: problem };
		if (ink.election !== undefined && ink.election !== election.id)
			return refuse(
				'other-election',
				`expected ink of election "${election.id}", got "${ink.election}"; name its file with --election`
			);
		const id = ink.style ?? this.#style;
		if (!election.styles.some((known) => known.id === id))
			return refuse('no-such-style', `expected a style of ${election.styles.map((s) => s.id).join(', ')}, got "${id}"`);
		const ballot = this.#open(id);
		const missing = ink.pages.find(({ page }) => page > ballot.prints.length);
		if (missing)
			return refuse(
				'no-such-page',
				`expected a page from 1 to ${ballot.prints.length} of style "${id}", got ${missing.page}`
			);
		return {
			reading: readBallot(new Map(ink.pages.map((page) => [page.page, imageOf(page, ballot)])), ballot),
			open: ballot
		};
	}

	#open(style: string): OpenBallot {
		const known = this.#opened.get(style);
		if (known) return known;
		const layout = layoutOf(this.#election, style, this.#languages, this.settings.printSize);
		const prints = layout.pages.map(({ page }) => printPage(layout, page));
		const ballot = { election: this.#election, layout, rulebook: this.#rulebook, prints };
		this.#opened.set(style, ballot);
		return ballot;
	}

	/** A photo of one page of a practice sheet; its code says which. */
	#readPhoto(bytes: Buffer): Result {
		let photo: ReturnType<typeof greyOf>;
		try {
			photo = greyOf(bytes);
		} catch (error) {
			return refuse('damaged', `expected a whole JPEG or PNG: ${reasonOf(error)}`);
		}
		const sheets = (this.#sheets ??= this.#openSheets());
		const result = sheets.flatten(photo);
		if ('refused' in result) return refuse(result.refused, photoWords()[result.refused]);
		const open = sheets.openOf(result.code);
		return { reading: readBallot(new Map([[result.code.page, result.page]]), open), open };
	}

	#openSheets(): PhotoSheets {
		const election = this.#election;
		return new PhotoSheets(
			{ elections: [election], words: wordsOf(election.languages), rulebook: this.#rulebook },
			{ encode: encodeCode, decode: decodeCode }
		);
	}
}

function documentOf(format: ReadSettings['format'], file: string, { reading, open }: Read): unknown {
	if (format === 'codes') return { file, codes: codesOfReading(reading.contests) };
	if (format === 'cvr') return castVoteRecord(reading, open, file, new Date().toISOString());
	return recordOf(file, reading, open);
}

/** The line of a file on which the reader itself failed. */
export function failedLine(file: string, error: unknown): FileLine {
	return refusedLine(file, 'failed', `the reader failed on it: ${reasonOf(error)}; look at it by hand and report it`);
}

function refusedLine(file: string, code: string, message: string): FileLine {
	return { file, line: JSON.stringify({ file, refused: { code, message } }), refused: message };
}

function contentOf(file: string): { readonly refused: Refused } | { readonly bytes: Buffer } {
	try {
		const { size } = statSync(file);
		// Told apart by the first bytes alone, so that a file too large for what it is never comes into memory.
		if (size > LARGEST_INK_BYTES && !isPicture(firstBytesOf(file)))
			return refuse('too-large', `expected at most ${LARGEST_INK_BYTES} bytes of ink, got ${size}; split it by page`);
		if (size > LARGEST_PHOTO_BYTES)
			return refuse('too-large', `expected at most ${LARGEST_PHOTO_BYTES} bytes, got ${size}; take a smaller photo`);
		return { bytes: readFileSync(file) };
	} catch (error) {
		return refuse('unreadable', `cannot be read: ${reasonOf(error)}`);
	}
}

/** Enough of a file to tell a picture from ink. */
function firstBytesOf(file: string): Buffer {
	const handle = openSync(file, 'r');
	try {
		const bytes = Buffer.alloc(8);
		return bytes.subarray(0, readSync(handle, bytes));
	} finally {
		closeSync(handle);
	}
}

function imageOf(ink: PageInk, { layout, prints }: OpenBallot): ReturnType<typeof inkPage> {
	const index = ink.page - 1;
	const anchors = (layout.pages[index]?.choices ?? []).map(({ target }) => target);
	const sheet = prints[index];
	if (!sheet) throw new RangeError(`imageOf: expected a printed page ${ink.page}, got ${prints.length} pages`);
	return inkPage(sheet, ink, anchors);
}

const refuse = (code: string, message: string): { readonly refused: Refused } => ({ refused: { code, message } });

const reasonOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));
