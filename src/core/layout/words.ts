/** The words printed on a sheet in one language: the section `layout` of that language's file in `locales/`. */
export interface SheetWords {
	/** The two parts of the band above every contest, in capitals. */
	readonly practice: string;
	readonly notABallot: string;
	readonly practiceNote: string;
	readonly keep: string;
	/** With {{page}} and {{pages}}. */
	readonly page: string;
	/** With {{name}}, the name of the ballot style. */
	readonly style: string;
	readonly voteForOne: string;
	/** With {{count}}, a number as a word. */
	readonly voteForUpTo: string;
	readonly voteYesOrNo: string;
	/** The same where nobody votes: a fun ballot. */
	readonly chooseOne: string;
	readonly chooseUpTo: string;
	readonly chooseYesOrNo: string;
	readonly chooseParty: string;
	/** With {{count}}. */
	readonly rankUpTo: string;
	/** Under each rank, over its column of targets: "choice". */
	readonly rankedChoice: string;
	/** Ranks as they are printed: "1st". */
	readonly ranks: Readonly<Record<string, string>>;
	/** Numbers as words. */
	readonly numbers: Readonly<Record<string, string>>;
	/** Beside a write-in line that the election file gives no words. */
	readonly writeIn: string;
}

/** The printed words of every language of a sheet, by BCP 47 tag. */
export type PrintedWords = Readonly<Record<string, SheetWords>>;

/** `text` with each {{key}} replaced by its value. A key without a value stays as it is, to be seen. */
export function fillIn(text: string, values: Readonly<Record<string, string | number>>): string {
	return text.replace(/\{\{(\w+)\}\}/g, (whole, key: string) => String(values[key] ?? whole));
}
