import type { i18n as I18n } from 'i18next';
import { officeTexts } from '$core/advice/officeTexts';
import type { Sentence } from '$core/advice/sentence';
import type { Choice, Contest, Election } from '$core/election/election';
import { textIn } from '$core/election/text';
import type { Mark } from '$core/marks/mark';
import { said } from '$lib/i18n/said';

/** Puts keys, ids and marks of one contest into words of the page's language. */
export interface Words {
	/** A whole sentence: `section` is its place in the locales, such as "reading.headline". */
	say(section: string, sentence: Sentence): string;
	/** Any text of ours, with the target's shape as its context. */
	text(key: string, values?: Record<string, unknown>): string;
	choice(id: string): string;
	mark(mark: Pick<Mark, 'kind' | 'place' | 'choice'>): string;
	/** Texts of the election file by their path, as they read at an instant; [] where it has none. */
	office(path: string, nowUtcMs: number): readonly string[];
	/** Whom to ask where the office has not written its steps. */
	askOffice(): string;
	/** The office's number, as its texts have it. */
	readonly phone: string;
}

export function wordsOf(i18n: I18n, lang: string, election: Election, contest?: Contest): Words {
	const context = election.target.shape;
	const text = (key: string, values: Record<string, unknown> = {}): string => said(i18n, key, { context, ...values });
	const choice = (id: string): string => {
		const found = contest?.choices.find((one) => one.id === id);
		return found && contest ? nameOf(found, contest, lang, text) : id;
	};
	const party = (id: string): string => {
		const found = election.parties.find((one) => one.id === id);
		return found ? textIn(found.name, lang) : id;
	};
	const named = ([key, value]: [string, string | number | readonly string[]]): [string, string | number] => {
		if (typeof value === 'object') return [key, list(lang, value.map(choice))];
		if (typeof value === 'number') return [key, value];
		if (key === 'choice' || key === 'otherChoice') return [key, choice(value)];
		return [key, key === 'party' || key === 'otherParty' ? party(value) : value];
	};
	return {
		text,
		choice,
		say: (section, { key, values }) => text(`${section}.${key}`, Object.fromEntries(Object.entries(values).map(named))),
		mark: (mark) => {
			const values = { kind: text(`marks.kind.${mark.kind}`), place: text(`marks.place.${mark.place}`) };
			if (mark.choice === undefined) return text('marks.at', values);
			return text('marks.atChoice', { ...values, choice: choice(mark.choice) });
		},
		office: (path, nowUtcMs) => officeOn(election, path, nowUtcMs, lang),
		askOffice: () =>
			text('reading.askOffice', { office: textIn(election.office.name, lang), phone: election.office.phone }),
		phone: election.office.phone
	};
}

/** Made once: making one for each sentence took two fifths of the time of all words of a note, by a profile in Chromium. */
const formatters = new Map<string, Intl.ListFormat>();

/** "A, B and C" as the language writes it. */
export function list(lang: string, names: readonly string[]): string {
	let formatter = formatters.get(lang);
	if (!formatter) formatters.set(lang, (formatter = new Intl.ListFormat(lang, { type: 'conjunction' })));
	return formatter.format(names);
}

/** A write-in has no name of its own: it is called by its line. */
function nameOf(choice: Choice, contest: Contest, lang: string, text: Words['text']): string {
	if (choice.kind !== 'write-in') return textIn(choice.name, lang);
	const lines = contest.choices.filter(({ kind }) => kind === 'write-in');
	if (lines.length === 1) return text('marks.writeInLine');
	return text('marks.writeInLineNumber', { number: lines.indexOf(choice) + 1 });
}

/** Kept for the latest instant, so that dates are put into words once and not with every mark. */
const officeSaid = new WeakMap<
	Election,
	{ readonly nowUtcMs: number; readonly texts: Map<string, readonly string[]> }
>();

function officeOn(election: Election, path: string, nowUtcMs: number, lang: string): readonly string[] {
	let kept = officeSaid.get(election);
	if (kept?.nowUtcMs !== nowUtcMs) officeSaid.set(election, (kept = { nowUtcMs, texts: new Map() }));
	const key = `${lang} ${path}`;
	let texts = kept.texts.get(key);
	if (!texts) kept.texts.set(key, (texts = officeTexts(election, path, nowUtcMs, lang)));
	return texts;
}
