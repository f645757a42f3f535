import { checkAnswers } from './checkAnswers';
import { checkContests } from './checkContests';
import { checkInstructions } from './checkInstructions';
import { checkPassages, knownIn } from './checkPassages';
import { checkStyles } from './checkStyles';
import type { Problem } from './election';
import {
	DATE_IDS,
	day,
	fields,
	flag,
	identifier,
	LANGUAGE_TAG,
	list,
	number,
	oneOf,
	pattern,
	whole,
	words
} from './fields';
import { at, Report } from './report';
import { text, unique, type Scope } from './scope';

/** Smallest target across, 3 mm in points: VVSG 2.0, requirement 7.2-J. */
const SMALLEST_TARGET_PT = (3 / 25.4) * 72;

/** Smallest paper text, in points: VVSG 2.0, requirement 7.1-I. */
const SMALLEST_NAME_PT = 10;

/** No office sets a date further than this from election day; more is a slip of the keyboard. */
const FURTHEST_OFFSET_DAYS = 1000;

const REQUIRED = [
	'format',
	'id',
	'invented',
	'languages',
	'office',
	'title',
	'kind',
	'date',
	'dates',
	'target',
	'parties',
	'contests',
	'precincts',
	'styles',
	'rulebook',
	'thresholds',
	'instructions',
	'answers',
	'page'
];

/**
 * What an election names that lies outside its file, where the caller knows: tags of the languages there are words for,
 * ids of rulebooks. What is left out is not looked up.
 */
export interface Installed {
	readonly languages?: readonly string[];
	readonly rulebooks?: readonly string[];
}

/**
 * Every problem of a document that may be an election file, in the order of the file's fields. Never throws, whatever
 * JSON it is given. A document without an `error` is an `Election`, but for open answers of its correction and folds
 * left out, which `parseElection` puts in; with `unpublishable` ones it may be tried out, not given to voters.
 */
export function check(document: unknown, installed: Installed = {}): readonly Problem[] {
	const report = new Report();
	const file = fields(report, document ?? null, '', REQUIRED, ['$schema', 'previousTarget', 'primaryRule', 'passages']);
	if (!file) return report.problems;

	words(report, file.$schema, '$schema');
	oneOf(report, file.format, 'format', ['fairhand-election/1']);
	identifier(report, file.id, 'id');
	flag(report, file.invented, 'invented');
	const scope: Scope = { report, ...checkLanguages(report, file.languages, installed.languages) };
	checkOffice(scope, file.office);
	text(scope, file.title, 'title');
	oneOf(report, file.kind, 'kind', ['primary', 'general', 'special', 'neutral']);
	day(report, file.date, 'date');
	checkDates(scope, file.dates);
	checkTarget(scope, file.target);
	checkPreviousTarget(scope, file.previousTarget);
	const parties = checkNamed(scope, file.parties, 'parties', 0);
	checkPrimaryRule(scope, file.primaryRule);
	const contests = checkContests(scope, file.contests, parties);
	const precincts = checkNamed(scope, file.precincts, 'precincts', 1);
	checkStyles(scope, file.styles, contests?.ids, precincts);
	if (contests?.partyPreference === true && file.primaryRule === undefined)
		report.hold(
			'primaryRule',
			'the notice of the primary’s rule',
			undefined,
			'Add it, since a contest asks for a party.'
		);
	const rulebook = identifier(report, file.rulebook, 'rulebook');
	if (installed.rulebooks)
		oneOf(report, rulebook, 'rulebook', installed.rulebooks, 'Use one of these; "fairhand rulebooks" lists them all.');
	checkThresholds(scope, file.thresholds);
	const known = knownIn(file.dates, file.passages);
	checkInstructions(scope, file.instructions, known);
	checkPassages(scope, file.passages, known);
	checkAnswers(scope, file.answers, known);
	checkPage(scope, file.page);
	return report.problems;
}

function checkLanguages(
	report: Report,
	value: unknown,
	installed: readonly string[] | undefined
): Pick<Scope, 'languages' | 'allLanguages'> {
	const seen = new Set<string>();
	const tags = list(report, value, 'languages', 1);
	let misspelt = tags.length === 0;
	tags.forEach((tag, i) => {
		const path = at('languages', i);
		const found = pattern(report, tag, path, LANGUAGE_TAG, 'a language tag such as "en" or "zh-Hans"');
		if (found === undefined) misspelt = true;
		unique(report, seen, found, path);
		if (installed)
			oneOf(
				report,
				found,
				path,
				installed,
				`There are no words for it: copy locales/en.json to locales/${found}.json and translate it, or take it out.`
			);
	});
	return { languages: [...seen], allLanguages: !misspelt };
}

function checkOffice(scope: Scope, value: unknown): void {
	const { report } = scope;
	const office = fields(report, value, 'office', ['name', 'phone', 'web', 'timeZone']);
	if (!office) return;
	text(scope, office.name, 'office.name');
	words(report, office.phone, 'office.phone');
	// It becomes a link: no other scheme may run anything.
	pattern(report, office.web, 'office.web', /^https?:\/\/\S+$/, 'an address that begins with https://');
	const zone = pattern(report, office.timeZone, 'office.timeZone', TIME_ZONE, TIME_ZONE_EXPECTED);
	if (zone !== undefined && !isTimeZone(zone))
		report.add('office.timeZone', TIME_ZONE_EXPECTED, zone, 'Use a name of the IANA list.');
}

/** Form of an IANA name; newer engines would also take "+05:00", which knows no daylight saving. */
const TIME_ZONE = /^[A-Za-z][A-Za-z0-9_+/-]{0,63}$/;
const TIME_ZONE_EXPECTED = 'a time zone such as "America/Chicago"';

function isTimeZone(timeZone: string): boolean {
	try {
		return new Intl.DateTimeFormat('en', { timeZone }).resolvedOptions().timeZone !== '';
	} catch {
		return false;
	}
}

function checkDates(scope: Scope, value: unknown): void {
	const { report } = scope;
	const seen = new Set<string>();
	list(report, value, 'dates').forEach((entry, i) => {
		const path = at('dates', i);
		const date = fields(report, entry, path, ['id', 'label', 'offsetDays', 'cite'], ['time', 'invented']);
		if (!date) return;
		unique(report, seen, oneOf(report, date.id, at(path, 'id'), DATE_IDS), at(path, 'id'));
		text(scope, date.label, at(path, 'label'));
		whole(report, date.offsetDays, at(path, 'offsetDays'), -FURTHEST_OFFSET_DAYS, FURTHEST_OFFSET_DAYS);
		pattern(report, date.time, at(path, 'time'), /^(?:[01]\d|2[0-3]):[0-5]\d$/, 'a time such as "08:00" or "20:30"');
		words(report, date.cite, at(path, 'cite'));
		flag(report, date.invented, at(path, 'invented'));
	});
}

function checkTarget({ report }: Scope, value: unknown): void {
	const target = fields(report, value, 'target', ['shape', 'side', 'widthPt', 'heightPt']);
	if (!target) return;
	checkShapeAndSide(report, target, 'target');
	for (const name of ['widthPt', 'heightPt']) {
		const path = at('target', name);
		const size = number(report, target[name], path, 1, 144);
		if (size !== undefined && size < SMALLEST_TARGET_PT)
			report.hold(path, 'at least 8.51 points (3 mm)', size, 'Make it larger: VVSG 2.0, 7.2-J, asks for it.');
	}
}

function checkPreviousTarget({ report }: Scope, value: unknown): void {
	const target = fields(report, value, 'previousTarget', ['shape', 'side']);
	if (target) checkShapeAndSide(report, target, 'previousTarget');
}

function checkShapeAndSide(report: Report, target: Readonly<Record<string, unknown>>, path: string): void {
	oneOf(report, target.shape, at(path, 'shape'), ['oval', 'box', 'arrow']);
	oneOf(report, target.side, at(path, 'side'), ['left', 'right']);
}

/** Parties or precincts. Gives their ids, or undefined where there is no list to look them up in. */
function checkNamed(scope: Scope, value: unknown, path: string, least: number): ReadonlySet<string> | undefined {
	const { report } = scope;
	const seen = new Set<string>();
	list(report, value, path, least).forEach((entry, i) => {
		const found = fields(report, entry, at(path, i), ['id', 'name']);
		if (!found) return;
		const idPath = at(at(path, i), 'id');
		unique(report, seen, identifier(report, found.id, idPath), idPath);
		text(scope, found.name, at(at(path, i), 'name'));
	});
	return Array.isArray(value) ? seen : undefined;
}

function checkPrimaryRule(scope: Scope, value: unknown): void {
	const rule = fields(scope.report, value, 'primaryRule', ['notice', 'cite'], ['invented']);
	if (!rule) return;
	text(scope, rule.notice, 'primaryRule.notice');
	words(scope.report, rule.cite, 'primaryRule.cite');
	flag(scope.report, rule.invented, 'primaryRule.invented');
}

function checkThresholds(scope: Scope, value: unknown): void {
	const { report } = scope;
	const thresholds = fields(report, value, 'thresholds', ['dark', 'empty', 'setBy']);
	if (!thresholds) return;
	const dark = number(report, thresholds.dark, 'thresholds.dark', 0, 1);
	const empty = number(report, thresholds.empty, 'thresholds.empty', 0, 1);
	if (dark !== undefined && empty !== undefined && empty >= dark)
		report.add('thresholds.empty', `less than dark (${dark})`, empty, 'Leave room between the two for "unsure".');
	text(scope, thresholds.setBy, 'thresholds.setBy');
}

function checkPage(scope: Scope, value: unknown): void {
	const { report } = scope;
	const page = fields(report, value, 'page', ['paper', 'columns', 'namePt'], ['foldsAt', 'legalLabel']);
	if (!page) return;
	oneOf(report, page.paper, 'page.paper', ['letter']);
	oneOf(report, page.columns, 'page.columns', [2, 3]);
	list(report, page.foldsAt, 'page.foldsAt').forEach((fold, i) => number(report, fold, at('page.foldsAt', i), 0, 1));
	const namePt = number(report, page.namePt, 'page.namePt', 6, 36);
	if (namePt !== undefined && namePt < SMALLEST_NAME_PT)
		report.hold('page.namePt', 'at least 10 points', namePt, 'Make it larger: VVSG 2.0, 7.1-I, asks for it.');
	text(scope, page.legalLabel, 'page.legalLabel');
}
