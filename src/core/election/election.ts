/**
 * The election file: one JSON document with all that an office publishes for one election.
 * These types mirror `static/schema/election.json`; `check.ts` proves that a document fits them.
 */

/** A text per language, by BCP 47 tag: `{ "en": "…", "es": "…" }`. Every language of the file is there. */
export type Text = Readonly<Record<string, string>>;

/** What cites a rule or who decided it: a law in its own words, an office's own rule in as many languages as it has. */
export interface Cited {
	readonly cite: string;
	/** The same in other languages, by tag. */
	readonly citeIn?: Text | undefined;
}

export type TargetShape = 'oval' | 'box' | 'arrow';
export type TargetSide = 'left' | 'right';

/** What a voter marks. For `arrow`, width and height are those of the gap between the arrow's two ends. */
export interface TargetStyle {
	readonly shape: TargetShape;
	/** On which side of the name the target stands. */
	readonly side: TargetSide;
	readonly widthPt: number;
	readonly heightPt: number;
}

export interface Office {
	readonly name: Text;
	readonly phone: string;
	readonly web: string;
	/** IANA name, for example "America/Chicago": days begin and end by the office's clock. */
	readonly timeZone: string;
}

/**
 * What happens on a date. Two-part ids (`replacement.mail`) name the act and its channel.
 */
export type DateId =
	'mailing' | 'mailing.overseas' | 'replacement.mail' | 'replacement.in-person' | 'registration' | 'return' | 'cure';

/** A day counted from election day: `offsetDays` -22 is 22 days before. */
export interface ElectionDate {
	readonly id: DateId;
	readonly label: Text;
	readonly offsetDays: number;
	/** Hour of the office's clock, "HH:MM"; without it the whole day. */
	readonly time?: string;
	/** The rule that sets the date, or who decided it. */
	readonly cite: string;
	/** true where the rule was made up for a demonstration. */
	readonly invented?: boolean;
}

export interface Party {
	readonly id: string;
	readonly name: Text;
}

/** Something a voter may choose: a candidate, an answer to a measure, or a line to write on. */
export interface Choice {
	readonly id: string;
	readonly kind: 'candidate' | 'answer' | 'write-in';
	/** What is printed. For a write-in, the words beside its line. */
	readonly name: Text;
	/** A second, smaller printed line: an occupation, a running mate. */
	readonly detail?: Text;
	readonly party?: string;
	/** For an answer: which way it goes. */
	readonly answer?: 'yes' | 'no';
}

/**
 * `candidates`: choose up to `voteFor`. `measure` and `retention`: two answers. `party-preference`: the
 * voter's party, where a rule makes it decide which partisan contests are read. `ranked`: a grid of
 * choices and ranks; `ranks` says how many.
 */
export type ContestKind = 'candidates' | 'measure' | 'retention' | 'party-preference' | 'ranked';

export interface Contest {
	readonly id: string;
	readonly kind: ContestKind;
	readonly title: Text;
	/** The question put, or the area a seat is for; printed under the title. */
	readonly subtitle?: Text;
	/** Text of a measure. */
	readonly text?: Text;
	readonly voteFor: number;
	readonly ranks?: number;
	/** In a primary: the party whose nominee is chosen here. */
	readonly party?: string;
	/** The printed order before rotation. Write-in lines come last and never rotate. */
	readonly choices: readonly Choice[];
}

export interface BallotStyle {
	readonly id: string;
	readonly name: Text;
	readonly precincts: readonly string[];
	/** Contest ids in ballot order. */
	readonly contests: readonly string[];
	/** How many places each contest's choices are moved up on this style; contests not named are not rotated. */
	readonly rotation?: Readonly<Record<string, number>>;
}

export interface Precinct {
	readonly id: string;
	readonly name: Text;
}

/** Where the ballot is now: decides which correction is still open. */
export type Stage = 'holding' | 'polling-place' | 'mailed';

/**
 * How a mistake is put right. The four differ between neighbouring jurisdictions, so none is a default:
 * an office's own file says which. `undecided`: the file leaves it open, and may not be published.
 */
export type CorrectionMethod =
	'replacement-only' | 'cross-out-allowed' | 'cross-out-preferred' | 'cross-out-last-resort' | 'undecided';

export interface Instructions {
	/** Which pen, in one sentence. */
	readonly pen: Text;
	/** How to mark, in one sentence. */
	readonly mark: Text;
	readonly writeIn: Text;
	readonly correction: {
		readonly method: CorrectionMethod;
		/** What to do, step by step, for each stage; no steps where the office has not written them yet. */
		readonly steps: Readonly<Record<Stage, readonly Text[]>>;
		readonly cite: string;
		readonly invented?: boolean;
	};
	/** Whether a scanner at a polling place hands back an overvoted or blank ballot. By mail nobody does. */
	readonly pollingPlaceWarns: { readonly overvote: boolean; readonly blank: boolean };
}

/**
 * How one party's contests on a shared primary ballot are treated, where the county has them.
 * The rulebook decides; this says what is printed.
 */
export interface PrimaryRule {
	readonly notice: Text;
	readonly cite: string;
	readonly invented?: boolean;
}

/** The office's own setting, never law: no statute that we read sets a fill percentage. */
export interface Thresholds {
	/** Score (0 to 1) at or above which a target is `dark`. */
	readonly dark: number;
	/** Score below which a target is `empty`; between the two it is `unsure`. */
	readonly empty: number;
	readonly setBy: Text;
}

export interface PageSetup {
	readonly paper: 'letter';
	readonly columns: 2 | 3;
	/** Where the sheet is folded, as shares of its height. Nothing printed for marking crosses a fold. */
	readonly foldsAt: readonly number[];
	/** Size of a choice's name, in points. */
	readonly namePt: number;
	/** The word that law wants on a ballot that is not one, beside our PRACTICE: often "SAMPLE BALLOT". */
	readonly legalLabel?: Text;
}

/** What an answer is about; the desk's triage and the answers page sort by it. */
export type AnswerKind =
	| 'pen'
	| 'marking'
	| 'mistake'
	| 'replacement'
	| 'damage'
	| 'contest'
	| 'write-in'
	| 'primary'
	| 'envelope'
	| 'return'
	| 'secrecy'
	| 'trust';

/**
 * Words that change by themselves once a date of the election is over. In each text `{{date:ID}}` stands for a date of
 * the election, `{{office.name}}`, `{{office.phone}}` and `{{office.web}}` for the office, and, in an answer,
 * `{{say:ID}}` for a passage.
 */
export interface Passage {
	readonly id: string;
	readonly text: Text;
	/** What is said instead once `date` is over; the last entry whose date is over holds. */
	readonly after?: readonly { readonly date: DateId; readonly text: Text }[];
}

/** What a paragraph of an answer speaks of. `plain`: none of the others. `next`: what happens then. */
export type AnswerSubject = 'plain' | 'machine' | 'people' | 'office' | 'next';

export interface AnswerPart {
	readonly about: AnswerSubject;
	/** Where the ballot must be for it to apply; without it, wherever it is. */
	readonly stages?: readonly Stage[];
}

/**
 * The one approved answer to a question or to several. An answer with no words, or that nobody approved, is open: the
 * voter is sent to the office, and where `varies` is V3 the file may not be published.
 */
export interface Answer extends Cited {
	readonly id: string;
	/** Numbers of the questions it answers; none for a question of the office's own. */
	readonly questions: readonly number[];
	readonly kind: AnswerKind;
	/** How far offices differ on it: `V3` means that neighbours say the opposite. */
	readonly varies: 'V0' | 'V1' | 'V2' | 'V3';
	/** Where the ballot may be when somebody asks. */
	readonly stages: readonly Stage[];
	/** The question, in a voter's words. */
	readonly title: Text;
	/** Long form. Paragraphs are parted by a line break; the first begins with a calm sentence. */
	readonly text: Text;
	/** What each paragraph of `text` speaks of, in order; without it, all are plain. */
	readonly parts?: readonly AnswerPart[];
	/** Short form for the phone: two to four sentences. */
	readonly readAloud: Text;
	/** How callers put it, by language: whole phrases, slang and slips included. Searched, never shown. */
	readonly callersWords: Readonly<Record<string, readonly string[]>>;
	/** The mistake it is about, an id of the list of mistake codes; none for a plain question. */
	readonly mistakeCode?: string;
	/** Ids of the rulebook's clauses that people would decide by. */
	readonly clauses?: readonly string[];
	/** A role, never a person's name. */
	readonly approvedBy: string;
	/** The same in other languages, by tag. */
	readonly approvedByIn?: Text | undefined;
	readonly invented?: boolean;
	readonly validFrom?: string;
	readonly validTo?: string;
}

export interface Election {
	/** Where an editor finds the schema; nothing else reads it. */
	readonly $schema?: string;
	readonly format: 'fairhand-election/1';
	readonly id: string;
	/** true where county, people, dates and rules were made up. Shown to the reader. */
	readonly invented: boolean;
	/** BCP 47 tags; the first is the main one. Every Text holds each of them. */
	readonly languages: readonly string[];
	readonly office: Office;
	readonly title: Text;
	readonly kind: 'primary' | 'general' | 'special' | 'neutral';
	/** Election day, "YYYY-MM-DD". */
	readonly date: string;
	readonly dates: readonly ElectionDate[];
	readonly target: TargetStyle;
	/** What voters had last time, for the lesson on old habits. */
	readonly previousTarget?: Pick<TargetStyle, 'shape' | 'side'>;
	readonly parties: readonly Party[];
	readonly primaryRule?: PrimaryRule;
	readonly contests: readonly Contest[];
	readonly precincts: readonly Precinct[];
	readonly styles: readonly BallotStyle[];
	/** Id of the rulebook people decide by. */
	readonly rulebook: string;
	readonly thresholds: Thresholds;
	readonly instructions: Instructions;
	/** The answers ledger; empty where the office gives no answers here. */
	readonly answers: readonly Answer[];
	/** Words that several answers share. */
	readonly passages?: readonly Passage[];
	readonly page: PageSetup;
}

/** A problem found in a document from outside. Text is made of it elsewhere; here it is data. */
export interface Problem {
	/** JSON Pointer-like path with dots: `contests[3].voteFor`. */
	readonly path: string;
	readonly expected: string;
	readonly received: string;
	/** `error`: the file cannot be used. `unpublishable`: it can be tried out but not given to voters. */
	readonly severity: 'error' | 'unpublishable';
	/** One plain English sentence with what to do. */
	readonly message: string;
}
