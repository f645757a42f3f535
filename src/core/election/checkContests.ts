import type { Choice, ContestKind } from './election';
import { fields, identifier, list, object, oneOf, whole } from './fields';
import { at } from './report';
import { known, text, unique, type Scope } from './scope';

/** What was found of the contests: their ids, and whether one of them asks for a party. */
export interface FoundContests {
	readonly ids: ReadonlySet<string>;
	readonly partyPreference: boolean;
}

interface KindRule {
	readonly required: readonly string[];
	readonly optional: readonly string[];
	readonly choices: readonly Choice['kind'][];
	/** Most choices a voter may be allowed to mark. */
	readonly mostVotes: number;
}

const COMMON = ['id', 'kind', 'title', 'voteFor', 'choices'];
const QUESTION: KindRule = { required: COMMON, optional: ['subtitle', 'text'], choices: ['answer'], mostVotes: 1 };

const KINDS: Readonly<Record<ContestKind, KindRule>> = {
	candidates: {
		required: COMMON,
		optional: ['subtitle', 'text', 'party'],
		choices: ['candidate', 'write-in'],
		mostVotes: 1000
	},
	measure: QUESTION,
	retention: QUESTION,
	'party-preference': { required: COMMON, optional: ['subtitle', 'text'], choices: ['candidate'], mostVotes: 1 },
	ranked: {
		required: [...COMMON, 'ranks'],
		optional: ['subtitle', 'text', 'party'],
		choices: ['candidate', 'write-in'],
		mostVotes: 1000
	}
};

const CONTEST_KINDS = Object.keys(KINDS) as readonly ContestKind[];

/** Most ranks of a ranked contest: no printed grid is wider. Found by trial on a letter page. */
const MOST_RANKS = 20;

/** Reports every problem of the contests and their choices. Undefined where there is no list of them. */
export function checkContests(
	scope: Scope,
	value: unknown,
	parties: ReadonlySet<string> | undefined
): FoundContests | undefined {
	const ids = new Set<string>();
	let partyPreference = false;
	list(scope.report, value, 'contests', 1).forEach((entry, i) => {
		if (checkContest(scope, entry, at('contests', i), ids, parties) === 'party-preference') partyPreference = true;
	});
	return Array.isArray(value) ? { ids, partyPreference } : undefined;
}

/** The tag first: which fields a contest may have depends on its kind, so without one nothing else is looked at. */
function checkContest(
	scope: Scope,
	value: unknown,
	path: string,
	ids: Set<string>,
	parties: ReadonlySet<string> | undefined
): ContestKind | undefined {
	const { report } = scope;
	const kind = tag(scope, value, path, CONTEST_KINDS, ids);
	if (!kind) return undefined;
	const rule = KINDS[kind];
	const contest = fields(report, value, path, rule.required, rule.optional);
	if (!contest) return undefined;
	unique(report, ids, identifier(report, contest.id, at(path, 'id')), at(path, 'id'));
	for (const name of ['title', 'subtitle', 'text']) text(scope, contest[name], at(path, name));
	known(report, parties, identifier(report, contest.party, at(path, 'party')), at(path, 'party'), 'party');
	const choices = list(report, contest.choices, at(path, 'choices'), 1);
	checkChoices(scope, choices, at(path, 'choices'), kind, parties);

	const voteFor = whole(report, contest.voteFor, at(path, 'voteFor'), 1, rule.mostVotes);
	if (voteFor !== undefined && choices.length > 0 && voteFor > choices.length)
		report.add(
			at(path, 'voteFor'),
			`at most ${choices.length}, as many as there are choices`,
			voteFor,
			'Lower it, or add choices or write-in lines.'
		);
	whole(report, contest.ranks, at(path, 'ranks'), 1, MOST_RANKS);
	return kind;
}

/** The kind of a contest or choice; reports it where it is none, and still notes the id, so that others find it. */
function tag<T extends string>(
	{ report }: Scope,
	value: unknown,
	path: string,
	kinds: readonly T[],
	ids: Set<string>
): T | undefined {
	const found = object(report, value ?? null, path);
	if (!found) return undefined;
	const has = Object.hasOwn(found, 'kind');
	if (!has)
		report.add(at(path, 'kind'), `one of ${kinds.join(', ')}`, undefined, 'Add it: the other fields depend on it.');
	const kind = has ? oneOf(report, found.kind, at(path, 'kind'), kinds) : undefined;
	if (!kind && Object.hasOwn(found, 'id') && typeof found.id === 'string') ids.add(found.id);
	return kind;
}

function checkChoices(
	scope: Scope,
	choices: readonly unknown[],
	path: string,
	contest: ContestKind,
	parties: ReadonlySet<string> | undefined
): void {
	const { report } = scope;
	const ids = new Set<string>();
	const kinds = choices.map((choice, i) => checkChoice(scope, choice, at(path, i), contest, ids, parties));
	const lastListed = kinds.findLastIndex((kind) => kind !== undefined && kind !== 'write-in');
	kinds.forEach((kind, i) => {
		if (kind === 'write-in' && i < lastListed)
			report.add(at(path, i), 'write-in lines last', choices[i], 'Move it to the end of the choices.');
	});
	// Where a choice is of no kind, or of a wrong one, that has been reported and says more than this would.
	if (KINDS[contest] === QUESTION && choices.length > 0 && kinds.every((kind) => kind === 'answer'))
		checkYesAndNo(scope, choices, path);
}

function checkYesAndNo({ report }: Scope, choices: readonly unknown[], path: string): void {
	const answers = choices.map((choice) => (choice as Partial<Choice>).answer).sort();
	if (answers.length === 2 && answers[0] === 'no' && answers[1] === 'yes') return;
	// A missing or misspelt answer has its own problem.
	if (answers.length === 2 && !answers.every((answer) => answer === 'yes' || answer === 'no')) return;
	report.add(path, 'one choice that answers "yes" and one that answers "no"', choices, 'Put in exactly these two.');
}

const CHOICE_FIELDS: Readonly<Record<Choice['kind'], readonly [readonly string[], readonly string[]]>> = {
	candidate: [
		['id', 'kind', 'name'],
		['detail', 'party']
	],
	answer: [['id', 'kind', 'name', 'answer'], ['detail']],
	'write-in': [['id', 'kind', 'name'], ['detail']]
};
const CHOICE_KINDS = Object.keys(CHOICE_FIELDS) as readonly Choice['kind'][];

function checkChoice(
	scope: Scope,
	value: unknown,
	path: string,
	contest: ContestKind,
	ids: Set<string>,
	parties: ReadonlySet<string> | undefined
): Choice['kind'] | undefined {
	const { report } = scope;
	const allowed = KINDS[contest].choices;
	const kind = tag(scope, value, path, CHOICE_KINDS, ids);
	if (!kind) return undefined;
	const fits = allowed.includes(kind);
	if (!fits)
		report.add(
			at(path, 'kind'),
			`${allowed.join(' or ')} in a contest of kind ${contest}`,
			kind,
			'Change it, or the contest’s kind.'
		);
	const [required, optional] = CHOICE_FIELDS[kind];
	const needed = fits && contest === 'party-preference' ? [...required, 'party'] : required;
	const choice = fields(report, value, path, needed, optional);
	if (!choice) return undefined;
	unique(report, ids, identifier(report, choice.id, at(path, 'id')), at(path, 'id'));
	text(scope, choice.name, at(path, 'name'));
	text(scope, choice.detail, at(path, 'detail'));
	// A field that this kind does not have was reported as such; its value says nothing more.
	if (kind === 'candidate')
		known(report, parties, identifier(report, choice.party, at(path, 'party')), at(path, 'party'), 'party');
	if (kind === 'answer') oneOf(report, choice.answer, at(path, 'answer'), ['yes', 'no']);
	return kind;
}
