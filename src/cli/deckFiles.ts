import { createReadStream } from 'node:fs';
import { createInterface } from 'node:readline';
import type { KnownDeck, ReadTarget, SheetReading } from '../core/deck/compareDeck';
import { DECK_MARKS } from '../core/deck/deckMarks';
import type { DeckSheet } from '../core/deck/planDeck';
import type { Layout } from '../core/layout/layout';
import { layoutVersion } from '../core/sheet/layoutVersion';
import { BadInput } from './failures';
import { textOf } from './files';

const FORMAT = 'fairhand-deck/1';

/** What `expected.json` holds. */
export interface DeckFile extends KnownDeck {
	readonly format: typeof FORMAT;
	readonly about: string;
	readonly election: string;
	readonly style: string;
}

/** What a deck's sheets were drawn as, as a file to keep beside them. */
export function deckFile(layout: Layout, sheets: readonly DeckSheet[]) {
	const { election, style, languages, printSize } = layout;
	return {
		format: FORMAT,
		about: 'Sheets with known marks, for a check of this reader. Not a logic and accuracy test of voting equipment.',
		election,
		style,
		languages,
		printSize,
		version: layoutVersion(layout),
		sheets: sheets.map(({ name, card, page, targets }) => ({ name, card, page, targets }))
	} satisfies DeckFile & Readonly<Record<string, unknown>>;
}

/** The deck in a file. Throws BadInput where the file is none. */
export function deckIn(file: string): DeckFile {
	const document = parsed(textOf(file)) as Partial<DeckFile> | undefined;
	const isSheet = ({ name, targets }: Partial<DeckSheet>): boolean =>
		typeof name === 'string' && Array.isArray(targets) && targets.every(isKnownTarget);
	if (document?.format !== FORMAT || !Array.isArray(document.sheets) || !document.sheets.every(isSheet))
		throw new BadInput([
			`${file}: expected the expected.json of a deck, got something else; make one by deck --out DIR`
		]);
	return document as DeckFile;
}

function isKnownTarget(value: unknown): boolean {
	const { contest, choice, drawn, accept } = (value ?? {}) as Readonly<Record<string, unknown>>;
	return (
		typeof contest === 'string' &&
		typeof choice === 'string' &&
		typeof drawn === 'string' &&
		Object.hasOwn(DECK_MARKS, drawn) &&
		Array.isArray(accept)
	);
}

/** The part of a line of `read` that a deck is compared with. */
interface RecordLine {
	readonly file: string;
	readonly election?: unknown;
	readonly style?: unknown;
	readonly refused?: { readonly code: string; readonly message: string };
	readonly pages?: readonly number[];
	readonly contests?: readonly {
		readonly contest: string;
		readonly machine: { readonly targets: readonly Omit<ReadTarget, 'contest'>[] };
	}[];
}

/** The readings that `read` wrote to a file, a line each. Throws BadInput for a line that is none, or of another style. */
export async function readingsIn(file: string, { election, style }: DeckFile): Promise<readonly SheetReading[]> {
	const readings: SheetReading[] = [];
	let number = 0;
	try {
		for await (const line of createInterface({ input: createReadStream(file), crlfDelay: Infinity })) {
			number += 1;
			if (line.trim() !== '') readings.push(readingOf(line, `${file}: line ${number}`, election, style));
		}
	} catch (error) {
		if (error instanceof BadInput) throw error;
		throw new BadInput([`${file}: cannot be read: ${error instanceof Error ? error.message : String(error)}`]);
	}
	return readings;
}

function readingOf(line: string, where: string, election: string, style: string): SheetReading {
	const record = parsed(line);
	if (!isRecordLine(record))
		throw new BadInput([`${where}: expected a line that "read" printed, got ${line.slice(0, 60)}`]);
	const { file, refused, pages, contests } = record;
	if (refused !== undefined) return { file, refused };
	if (record.election !== election || record.style !== style)
		throw new BadInput([
			`${where}: expected a reading of election "${election}", style "${style}", got "${String(record.election)}", "${String(record.style)}"`
		]);
	return {
		file,
		...(pages === undefined ? {} : { pages }),
		targets: (contests ?? []).flatMap(({ contest, machine }) =>
			machine.targets.map((target) => ({ contest, ...target }))
		)
	};
}

function isRecordLine(value: unknown): value is RecordLine {
	const { file, refused, contests } = (value ?? {}) as Readonly<Record<string, unknown>>;
	return typeof file === 'string' && (refused !== undefined || Array.isArray(contests));
}

function parsed(text: string): unknown {
	try {
		return JSON.parse(text);
	} catch {
		return undefined;
	}
}
