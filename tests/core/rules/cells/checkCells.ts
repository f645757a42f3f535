import type { Problem } from '$core/election/election';
import { fields, flag, list, oneOf, whole, words, type Fields } from '$core/election/fields';
import { at, Report } from '$core/election/report';
import type { Rulebook } from '$core/rules/rule';
import { CHANNELS, COUNTS, DECIDES, SAYINGS, SHAPES } from '$core/rules/vocabulary';
import { PICTURES } from '../pictures/readPicture';
import { rolesOf, sheetOf, CONTEST_OF } from '../pictures/sheets';

const OUTCOMES = [
	'vote',
	'no-vote',
	'overvote',
	'void-contest',
	'blank',
	'undervote',
	'refer',
	'silent',
	'void-ballot',
	'duplicate'
] as const;
const BALLOT_OUTCOMES = ['none', 'void-ballot', 'duplicate', 'refer', 'silent'] as const;
const ROWS = 39;

/** Every fault of a file of cells, with its path. */
export function checkCells(document: unknown, name: string, rulebook: Rulebook | undefined): readonly Problem[] {
	const report = new Report();
	const file = fields(report, document, '', ['rulebook', 'cells']);
	if (!file) return report.problems;
	if (file['rulebook'] !== name)
		report.add('rulebook', `"${name}", the file’s name`, file['rulebook'], 'Rename one of the two.');
	if (!rulebook) report.add('rulebook', 'the id of a rulebook in sets/', name, 'Add the rulebook, or rename the file.');
	const ids = new Set(rulebook?.clauses.map(({ id }) => id));
	const before = new Map<string, string>();
	list(report, file['cells'], 'cells').forEach((entry, i) => {
		const path = at('cells', i);
		checkCell(report, entry, path, ids);
		const key = caseOf(entry);
		const twin = before.get(key);
		if (twin !== undefined) report.add(path, 'each situation once', key, `It is the same as ${twin}; take one out.`);
		before.set(key, path);
	});
	return report.problems;
}

/** All that makes two cells the same situation. */
function caseOf(entry: unknown): string {
	const { row, fixture, picture, everywhere, told, vary, skip } = Object(entry) as Fields;
	return JSON.stringify([row, fixture, picture, everywhere ?? false, told, vary, skip]);
}

function checkCell(report: Report, entry: unknown, path: string, ids: ReadonlySet<string>): void {
	const isSkip = typeof entry === 'object' && entry !== null && 'skip' in entry;
	const cell = isSkip
		? fields(report, entry, path, ['row', 'skip'], ['fixture'])
		: fields(report, entry, path, ['row', 'picture', 'expect', 'source'], ['fixture', 'everywhere', 'told', 'vary']);
	if (!cell) return;
	const { row, fixture } = cell;
	whole(report, row, at(path, 'row'), 0, ROWS);
	words(report, fixture, at(path, 'fixture'));
	if (row === 0 && fixture === undefined)
		report.add(at(path, 'fixture'), 'the name of a fixture', fixture, 'A cell without a row needs one.');
	if (isSkip) {
		words(report, cell['skip'], at(path, 'skip'));
		return;
	}
	words(report, cell['source'], at(path, 'source'));
	flag(report, cell['everywhere'], at(path, 'everywhere'));
	checkTold(report, cell['told'], at(path, 'told'));
	const vary = fields(report, cell['vary'], at(path, 'vary'), [], ['shape']);
	if (vary) oneOf(report, vary['shape'], at(at(path, 'vary'), 'shape'), SHAPES);
	const picture = oneOf<string>(report, cell['picture'], at(path, 'picture'), Object.keys(PICTURES));
	checkExpectation(report, cell['expect'], at(path, 'expect'), ids, picture);
}

function checkTold(report: Report, value: unknown, path: string): void {
	const told = fields(report, value, path, [], ['channel', 'count', 'damaged', 'says']);
	if (!told) return;
	oneOf(report, told['channel'], at(path, 'channel'), CHANNELS);
	oneOf(report, told['count'], at(path, 'count'), COUNTS);
	flag(report, told['damaged'], at(path, 'damaged'));
	if (told['says'] !== null) oneOf(report, told['says'], at(path, 'says'), SAYINGS);
}

function checkExpectation(
	report: Report,
	value: unknown,
	path: string,
	ids: ReadonlySet<string>,
	picture: string | undefined
): void {
	const expected = fields(report, value, path, [], ['outcome', 'votes', 'clauses', 'ballot', 'wouldLook', 'decides']);
	if (!expected) return;
	const { outcome, votes, clauses, ballot, wouldLook, decides } = expected;
	if ([outcome, ballot, wouldLook, decides].every((one) => one === undefined))
		report.add(path, 'outcome, ballot, wouldLook or decides', value, 'Say what comes of it.');
	oneOf(report, outcome, at(path, 'outcome'), OUTCOMES);
	oneOf(report, ballot, at(path, 'ballot'), BALLOT_OUTCOMES);
	oneOf(report, decides, at(path, 'decides'), DECIDES);
	flag(report, wouldLook, at(path, 'wouldLook'));
	if (outcome === 'vote' && !(Array.isArray(votes) && votes.length > 0))
		report.add(at(path, 'votes'), 'the roles voted for', votes, 'A vote is for somebody.');
	if (outcome !== 'vote' && Array.isArray(votes) && votes.length > 0)
		report.add(at(path, 'votes'), 'no votes', votes, `An outcome of ${String(outcome)} has none.`);
	const roles = picture === undefined ? [] : rolesIn(picture);
	list(report, votes ?? [], at(path, 'votes')).forEach((role, i) =>
		oneOf(report, role, at(at(path, 'votes'), i), roles)
	);
	list(report, clauses ?? [], at(path, 'clauses')).forEach((id, i) => {
		if (typeof id !== 'string' || !ids.has(id))
			report.add(at(at(path, 'clauses'), i), 'the id of a clause of the rulebook', id, 'Correct it.');
	});
}

function rolesIn(picture: string): readonly string[] {
	const situation = PICTURES[picture];
	const { contests } = sheetOf(situation?.sheet ?? 'plain', situation?.shape ?? 'oval');
	const contest = contests.find(({ id }) => id === CONTEST_OF[situation?.contest ?? 'one']);
	return contest ? [...rolesOf(contest).keys()] : [];
}
