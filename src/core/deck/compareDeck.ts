import type { TargetLevel } from '../marks/mark';
import type { DeckMarkId } from './deckMarks';
import type { DeckSheet, KnownTarget } from './planDeck';

/** What a deck's sheets were drawn as, to be laid beside readings of them. */
export interface KnownDeck {
	readonly sheets: readonly Pick<DeckSheet, 'name' | 'page' | 'targets'>[];
}

/** One reading of one sheet: of each target seen its level, or that the file was refused. */
export interface SheetReading {
	readonly file: string;
	readonly refused?: { readonly code: string; readonly message: string };
	readonly pages?: readonly number[];
	readonly targets?: readonly ReadTarget[];
}

export interface ReadTarget {
	readonly contest: string;
	readonly choice: string;
	readonly rank?: number;
	readonly level: TargetLevel;
	readonly score: number;
}

/** A target that was read as something that it was not drawn as. */
export interface Difference extends KnownTarget {
	readonly sheet: string;
	readonly file: string;
	/** `missing`: the reading does not speak of this target. */
	readonly level: TargetLevel | 'missing';
	readonly score?: number;
	/** A mark read as none, or none as a mark: what must not happen. */
	readonly isFlip: boolean;
}

export interface DeckReport {
	readonly differences: readonly Difference[];
	/** Sheets without a reading, and readings without a sheet. */
	readonly notRead: readonly string[];
	readonly notOfDeck: readonly string[];
	/** Files that were refused, with the reason. */
	readonly refused: readonly { readonly sheet: string; readonly file: string; readonly code: string }[];
	readonly targets: number;
	/** How often each kind of mark was read at each level. */
	readonly levels: Readonly<Partial<Record<DeckMarkId, Readonly<Record<TargetLevel, number>>>>>;
	/** How readings were matched with sheets: by the names of their files, or in the order of the deck. */
	readonly matchedBy: 'name' | 'order';
}

/**
 * Readings of a deck's sheets beside what was drawn, target by target. A reading belongs to the sheet that its file is
 * named after; where no file is named after any, and there are as many readings as sheets, they are taken in order.
 */
export function compareDeck(deck: KnownDeck, readings: readonly SheetReading[]): DeckReport {
	const byName = new Map(readings.map((reading) => [stemOf(reading.file), reading]));
	const matchedBy =
		!deck.sheets.some(({ name }) => byName.has(name)) && readings.length === deck.sheets.length ? 'order' : 'name';
	const differences: Difference[] = [];
	const notRead: string[] = [];
	const refused: { sheet: string; file: string; code: string }[] = [];
	const levels: Partial<Record<DeckMarkId, Record<TargetLevel, number>>> = {};
	const used = new Set<SheetReading>();
	let targets = 0;
	for (const [index, sheet] of deck.sheets.entries()) {
		const reading = matchedBy === 'order' ? readings[index] : byName.get(sheet.name);
		if (!reading) {
			notRead.push(sheet.name);
			continue;
		}
		used.add(reading);
		const { file } = reading;
		if (reading.refused) {
			refused.push({ sheet: sheet.name, file, code: reading.refused.code });
			continue;
		}
		const read = new Map((reading.targets ?? []).map((target) => [keyOf(target), target]));
		for (const known of sheet.targets) {
			targets += 1;
			const found = read.get(keyOf(known));
			if (found) (levels[known.drawn] ??= { dark: 0, unsure: 0, empty: 0 })[found.level] += 1;
			if (found && known.accept.includes(found.level)) continue;
			const level = found?.level ?? 'missing';
			const score = found ? { score: found.score } : {};
			differences.push({ sheet: sheet.name, file, ...known, level, ...score, isFlip: isFlip(known.accept, level) });
		}
	}
	const notOfDeck = readings.filter((reading) => !used.has(reading)).map(({ file }) => file);
	return { differences, notRead, notOfDeck, refused, targets, levels, matchedBy };
}

/** Whether a mark meant to be found was not, or the other way round. */
function isFlip(accept: readonly TargetLevel[], level: Difference['level']): boolean {
	return (level === 'empty' && accept.includes('dark')) || (level === 'dark' && accept.includes('empty'));
}

const keyOf = ({ contest, choice, rank = 0 }: Pick<ReadTarget, 'contest' | 'choice' | 'rank'>): string =>
	[contest, choice, rank].join(' ');

/** A file's name without its folder and its ending. */
function stemOf(file: string): string {
	const name = file.split(/[\\/]/).at(-1) ?? file;
	return name.replace(/\.[^.]*$/, '');
}
