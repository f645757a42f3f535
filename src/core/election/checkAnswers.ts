import { MISTAKE_CODES } from '../answers/mistakeCodes';
import { QUESTIONS, VARIES, type Varies } from '../answers/questions';
import { STAGES } from './checkInstructions';
import { slotted, type Known } from './checkPassages';
import type { AnswerKind, AnswerSubject } from './election';
import { day, fields, flag, identifier, inOthers, list, object, oneOf, whole, words } from './fields';
import { at } from './report';
import { text, unique, type Scope } from './scope';

const KINDS: readonly AnswerKind[] = [
	'pen',
	'marking',
	'mistake',
	'replacement',
	'damage',
	'contest',
	'write-in',
	'primary',
	'envelope',
	'return',
	'secrecy',
	'trust'
];

const SUBJECTS: readonly AnswerSubject[] = ['plain', 'machine', 'people', 'office', 'next'];

const REQUIRED = [
	'id',
	'questions',
	'kind',
	'varies',
	'stages',
	'title',
	'text',
	'readAloud',
	'callersWords',
	'cite',
	'approvedBy'
];
const OPTIONAL = ['citeIn', 'approvedByIn', 'parts', 'mistakeCode', 'clauses', 'invented', 'validFrom', 'validTo'];

/** A neighbour says the opposite, so none is ever filled in for an office. */
const DECIDE = 'Ask who decides this in your office, write it and have it approved; there is no default.';

/** The days on which an answer to a question may be given, both included. */
interface Given {
	readonly question: number;
	readonly path: string;
	readonly from: string;
	readonly to: string;
}

/**
 * Reports every problem of the answers ledger. A ledger with any answer at all must answer each question on which
 * offices say opposite things; an open or missing answer to one holds publishing back.
 */
export function checkAnswers(scope: Scope, answers: unknown, known: Known): void {
	const { report } = scope;
	const entries = list(report, answers, 'answers');
	const seen = new Set<string>();
	const given = entries.flatMap((entry, i) => checkAnswer(scope, entry, at('answers', i), known, seen));
	checkOneEach(scope, given);
	if (entries.length > 0) checkAllOpposite(scope, given);
}

function checkAnswer(scope: Scope, entry: unknown, path: string, known: Known, seen: Set<string>): readonly Given[] {
	const { report } = scope;
	const answer = fields(report, entry ?? null, path, REQUIRED, OPTIONAL);
	if (!answer) return [];
	unique(report, seen, identifier(report, answer.id, at(path, 'id')), at(path, 'id'));
	const questions = checkQuestions(scope, answer.questions, at(path, 'questions'));
	oneOf(report, answer.kind, at(path, 'kind'), KINDS);
	const varies = oneOf(report, answer.varies, at(path, 'varies'), VARIES);
	checkVaries(scope, varies, questions, at(path, 'varies'));
	const stages = list(report, answer.stages, at(path, 'stages'), 1);
	stages.forEach((stage, i) => oneOf(report, stage ?? null, at(at(path, 'stages'), i), STAGES));
	text(scope, answer.title, at(path, 'title'));
	for (const name of ['text', 'readAloud'])
		if (varies === 'V3' && isOpen(answer[name]))
			report.hold(at(path, name), 'the answer of your office', answer[name], DECIDE);
		else slotted(scope, answer[name], at(path, name), known);
	if (answer.parts !== undefined) checkParts(scope, answer.parts, at(path, 'parts'), answer.text, stages);
	checkCallersWords(scope, answer.callersWords, at(path, 'callersWords'));
	oneOf(
		report,
		answer.mistakeCode,
		at(path, 'mistakeCode'),
		MISTAKE_CODES.map(({ id }) => id)
	);
	list(report, answer.clauses, at(path, 'clauses')).forEach((clause, i) =>
		identifier(report, clause ?? null, at(at(path, 'clauses'), i))
	);
	words(report, answer.cite, at(path, 'cite'));
	inOthers(report, answer.citeIn, at(path, 'citeIn'));
	words(report, answer.approvedBy, at(path, 'approvedBy'));
	inOthers(report, answer.approvedByIn, at(path, 'approvedByIn'));
	flag(report, answer.invented, at(path, 'invented'));
	const from = day(report, answer.validFrom, at(path, 'validFrom'));
	const to = day(report, answer.validTo, at(path, 'validTo'));
	if (from !== undefined && to !== undefined && to < from)
		report.add(at(path, 'validTo'), `${from} or later`, to, 'Put the later day last.');
	return questions.map((question) => ({
		question,
		path: at(path, 'questions'),
		from: from ?? '0000-01-01',
		to: to ?? '9999-12-31'
	}));
}

function checkQuestions({ report }: Scope, value: unknown, path: string): readonly number[] {
	const numbers = list(report, value, path).map((number, i) =>
		whole(report, number ?? null, at(path, i), 1, QUESTIONS.length)
	);
	return [...new Set(numbers.filter((number) => number !== undefined))];
}

/** An answer may be marked as more delicate than its questions, never as less: the mark is what holds it back. */
function checkVaries({ report }: Scope, varies: Varies | undefined, questions: readonly number[], path: string): void {
	const least = Math.max(0, ...questions.map((number) => VARIES.indexOf(QUESTIONS[number - 1]?.varies ?? 'V0')));
	if (varies === undefined || VARIES.indexOf(varies) >= least) return;
	const hardest = questions.find((number) => QUESTIONS[number - 1]?.varies === VARIES[least]);
	const why = `Question ${hardest ?? ''} is answered so differently elsewhere that it must be marked so.`;
	report.add(path, `"${VARIES[least] ?? ''}" or higher`, varies, why);
}

/** One part for each paragraph, in every language, and none for a stage that the answer is not for. */
function checkParts({ report }: Scope, value: unknown, path: string, said: unknown, stages: readonly unknown[]): void {
	const parts = list(report, value, path);
	parts.forEach((entry, i) => {
		const partPath = at(path, i);
		const part = fields(report, entry ?? null, partPath, ['about'], ['stages']);
		if (!part) return;
		oneOf(report, part.about, at(partPath, 'about'), SUBJECTS);
		list(report, part.stages, at(partPath, 'stages'), part.stages === undefined ? 0 : 1).forEach((stage, k) =>
			oneOf(
				report,
				stage ?? null,
				at(at(partPath, 'stages'), k),
				STAGES.filter((one) => stages.includes(one))
			)
		);
	});
	if (typeof said !== 'object' || said === null || isOpen(said)) return;
	for (const [language, line] of Object.entries(said))
		if (typeof line === 'string' && line.split('\n').length !== parts.length)
			report.add(
				path,
				`a part for each of the ${line.split('\n').length} paragraphs of the text in "${language}"`,
				value,
				'Give every paragraph one part, and every language as many paragraphs.'
			);
}

function checkCallersWords({ report, languages }: Scope, value: unknown, path: string): void {
	const found = object(report, value, path);
	if (!found) return;
	for (const language of languages)
		if (!Object.hasOwn(found, language))
			report.add(
				at(path, language),
				`the callers’ words in "${language}"`,
				undefined,
				'Add a list, even an empty one.'
			);
	for (const [language, phrases] of Object.entries(found))
		list(report, phrases ?? null, at(path, language)).forEach((phrase, i) =>
			words(report, phrase ?? null, at(at(path, language), i))
		);
}

/** Nothing to read in any language. */
const isOpen = (value: unknown): boolean =>
	typeof value === 'object' &&
	value !== null &&
	!Array.isArray(value) &&
	Object.values(value).every((line) => typeof line === 'string' && line.trim() === '');

/** One approved answer to a question on any day: two people must not be told two things. */
function checkOneEach({ report }: Scope, given: readonly Given[]): void {
	for (const [i, one] of given.entries()) {
		const other = given.slice(0, i).find(({ question, from, to }) => {
			return question === one.question && from <= one.to && one.from <= to;
		});
		if (other)
			report.hold(
				one.path,
				`no other answer to question ${one.question} on the same days`,
				`${other.path} as well`,
				'Keep one of the two, or give them days that do not overlap.'
			);
	}
}

function checkAllOpposite({ report }: Scope, given: readonly Given[]): void {
	const answered = new Set(given.map(({ question }) => question));
	for (const { number, varies, asked } of QUESTIONS)
		if (varies === 'V3' && !answered.has(number))
			report.hold('answers', `an answer to question ${number} (${asked})`, undefined, DECIDE);
}
