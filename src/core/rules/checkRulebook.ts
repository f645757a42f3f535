import type { Problem } from '../election/election';
import { day, fields, flag, identifier, inOthers, list, oneOf, words, type Fields } from '../election/fields';
import { at, Report } from '../election/report';
import { checkClauses } from './checkClauses';
import { checkCondition } from './checkCondition';
import { checkText } from './checkText';
import { SWITCHES } from './switches';
import { CHANNELS, COUNTS, DECIDES, EXTENTS, JURISDICTIONS, LOOKS } from './vocabulary';

const REQUIRED = [
	'format',
	'id',
	'title',
	'jurisdiction',
	'versionRead',
	'readOn',
	'howMuchRead',
	'caution',
	'looks',
	'clauses',
	'outOfScope'
];
const OPTIONAL = ['$schema', 'gap', 'invented', 'looksWhen', 'looksClause', 'decides', 'assumes', 'switches'];

/**
 * Every problem of a document that may be a rulebook, in the order of its fields. Never throws, whatever
 * JSON it is given. A document without an `error` is a `Rulebook`; one with `unpublishable` problems may be
 * tried out, not shown to voters.
 */
export function checkRulebook(document: unknown): readonly Problem[] {
	const report = new Report();
	const file = fields(report, document ?? null, '', REQUIRED, OPTIONAL);
	if (!file) {
		if (report.problems.length === 0) report.add('', 'an object', document ?? null, 'Put an object { … } here.');
		return report.problems;
	}
	words(report, file['$schema'], '$schema');
	oneOf(report, file['format'], 'format', ['fairhand-rulebook/1']);
	identifier(report, file['id'], 'id');
	checkText(report, file['title'], 'title');
	oneOf(report, file['jurisdiction'], 'jurisdiction', JURISDICTIONS);
	words(report, file['versionRead'], 'versionRead');
	day(report, file['readOn'], 'readOn');
	checkExtent(report, file);
	checkText(report, file['caution'], 'caution');
	flag(report, file['invented'], 'invented');
	oneOf(report, file['looks'], 'looks', LOOKS);
	if (file['looksWhen'] !== undefined)
		checkCondition(report, file['looksWhen'], 'looksWhen', 'contest', { early: true });
	const ids = checkClauses(report, file['clauses']);
	checkClauseId(report, file['looksClause'], 'looksClause', ids);
	checkDecides(report, file['decides'], ids);
	checkAssumes(report, file['assumes']);
	checkSwitches(report, file['switches']);
	checkOutOfScope(report, file['outOfScope']);
	return report.problems;
}

function checkExtent(report: Report, file: Fields): void {
	const extent = oneOf(report, file['howMuchRead'], 'howMuchRead', EXTENTS);
	if (extent !== undefined && extent !== 'whole' && file['gap'] === undefined)
		report.add('gap', 'what was not read', undefined, 'Say it, since not the whole text was read.');
	checkText(report, file['gap'], 'gap');
}

function checkClauseId(report: Report, value: unknown, path: string, ids: ReadonlySet<string>): void {
	const id = words(report, value, path);
	if (id !== undefined && !ids.has(id))
		report.add(path, 'the id of a clause here', id, 'Correct it, or add the clause.');
}

function checkDecides(report: Report, value: unknown, ids: ReadonlySet<string>): void {
	const decides = fields(report, value, 'decides', ['how', 'clause']);
	if (!decides) return;
	oneOf(report, decides['how'], 'decides.how', DECIDES);
	checkClauseId(report, decides['clause'], 'decides.clause', ids);
}

function checkAssumes(report: Report, value: unknown): void {
	const assumes = fields(report, value, 'assumes', [], ['channel', 'count']);
	if (!assumes) return;
	oneOf(report, assumes['channel'], 'assumes.channel', CHANNELS);
	oneOf(report, assumes['count'], 'assumes.count', COUNTS);
}

function checkSwitches(report: Report, value: unknown): void {
	const names = Object.keys(SWITCHES) as (keyof typeof SWITCHES)[];
	const switches = fields(report, value, 'switches', [], names);
	if (!switches) return;
	for (const name of names) oneOf<string>(report, switches[name], at('switches', name), SWITCHES[name]);
}

function checkOutOfScope(report: Report, value: unknown): void {
	list(report, value, 'outOfScope').forEach((entry, i) => {
		const path = at('outOfScope', i);
		const left = fields(report, entry, path, ['cite', 'plain'], ['citeIn', 'why']);
		if (!left) return;
		words(report, left['cite'], at(path, 'cite'));
		inOthers(report, left['citeIn'], at(path, 'citeIn'));
		checkText(report, left['plain'], at(path, 'plain'));
		checkText(report, left['why'], at(path, 'why'));
	});
}
