import type { MarkKind, MarkPlace } from '../marks/mark';
import type { MachineState } from '../reading/statement';

/** The closed word lists of the rulebook format. `rule.ts` makes types of them, `checkRulebook` checks by them. */

/** The reader's kinds and places, written out again: rules know what was found, not how. A test holds them alike. */
export const MARK_KINDS = [
	'fill',
	'check',
	'cross',
	'stroke',
	'dot',
	'ring',
	'underline',
	'strike',
	'scribble',
	'join',
	'writing',
	'smudge',
	'erasure',
	'stain',
	'fold',
	'unsure'
] as const satisfies readonly MarkKind[];
export const MARK_PLACES = [
	'in-target',
	'touching-target',
	'beside-target',
	'on-name',
	'after-name',
	'write-in',
	'heading',
	'margin'
] as const satisfies readonly MarkPlace[];

/** What a person says a piece of handwriting is. Nothing here is ever recognised by the app. */
export const SAYINGS = [
	'name',
	'part-of-name',
	'printed-name',
	'repeated-name',
	'ineligible-name',
	'yes',
	'no',
	'support',
	'against',
	'identity',
	'remark'
] as const;

/** Sayings that are a name on a write-in line. */
export const NAME_SAYINGS: readonly Saying[] = [
	'name',
	'part-of-name',
	'printed-name',
	'repeated-name',
	'ineligible-name'
];

export const SCOPES = ['choice', 'contest', 'ballot'] as const;

/** What a clause may say, by its scope. A contest clause may also say `{ "prefer": <choice condition> }`. */
export const RESULTS = {
	choice: ['vote', 'no-vote', 'refer'],
	contest: [
		'vote',
		'no-vote',
		'undervote',
		'overvote',
		'blank',
		'void-contest',
		'refer',
		'machine',
		'stop-ranking',
		'pass-rank'
	],
	ballot: ['void-ballot', 'duplicate', 'stands', 'void-partisan', 'prefer-party', 'refer']
} as const;

export const MACHINE_STATES = [
	'read',
	'undervote',
	'overvote',
	'blank',
	'unsure'
] as const satisfies readonly MachineState[];
export const LOOKS = ['always', 'set-aside', 'over-or-under', 'never'] as const;
export const LEVELS = ['dark', 'unsure', 'empty'] as const;
export const CHOICE_KINDS = ['candidate', 'answer', 'write-in'] as const;
export const CONTEST_KINDS = ['candidates', 'measure', 'retention', 'party-preference', 'ranked'] as const;
export const SHAPES = ['oval', 'box', 'arrow'] as const;
export const TECHNIQUES = ['throughout', 'majority', 'elsewhere'] as const;
export const VOTE_COUNTS = ['none', 'fewer', 'full', 'too-many'] as const;
export const RANK_EVENTS = ['same-rank', 'one-skip', 'two-skips', 'same-choice'] as const;
export const BALLOT_FACTS = [
	'nothing-readable',
	'damaged',
	'pages-missing',
	'votes-in-several-parties',
	'preference-marked'
] as const;
export const CHANNELS = ['mail', 'polling-place'] as const;
export const COUNTS = ['scanner', 'hand', 'recount', 'audit'] as const;
export const DECIDES = ['majority', 'unanimous', 'discretion'] as const;
export const JURISDICTIONS = ['country', 'state', 'local', 'invented'] as const;
export const EXTENTS = ['whole', 'part', 'little'] as const;
export const STATUSES = ['R', 'R-part'] as const;

export type Saying = (typeof SAYINGS)[number];
export type Scope = (typeof SCOPES)[number];

/** Where each word of the pattern language may stand. */
export const OPERATORS = {
	always: ['choice', 'contest', 'ballot'],
	all: ['choice', 'contest', 'ballot'],
	any: ['choice', 'contest', 'ballot'],
	not: ['choice', 'contest', 'ballot'],
	mark: ['choice'],
	target: ['choice'],
	choice: ['choice'],
	answer: ['choice'],
	struck: ['choice'],
	erased: ['choice'],
	supported: ['choice'],
	written: ['choice'],
	named: ['choice'],
	technique: ['choice'],
	other: ['choice'],
	everyOther: ['choice'],
	contest: ['choice', 'contest'],
	seats: ['choice', 'contest'],
	partisan: ['choice', 'contest'],
	machine: ['choice', 'contest'],
	looked: ['choice', 'contest'],
	inContest: ['choice', 'contest'],
	leftUnstruck: ['choice', 'contest'],
	someChoice: ['contest'],
	voted: ['contest'],
	votes: ['contest'],
	ranked: ['contest'],
	someContest: ['ballot'],
	onBallot: ['choice', 'contest', 'ballot'],
	ballot: ['choice', 'contest', 'ballot'],
	shape: ['choice', 'contest', 'ballot'],
	channel: ['choice', 'contest', 'ballot'],
	count: ['choice', 'contest', 'ballot'],
	switch: ['choice', 'contest', 'ballot']
} as const satisfies Readonly<Record<string, readonly Scope[]>>;

export type Operator = keyof typeof OPERATORS;

/** Facts of the whole ballot that are known only once every contest is decided: for ballot clauses alone. */
export const LATE_BALLOT_FACTS: readonly string[] = ['votes-in-several-parties', 'preference-marked'];

/**
 * Keys of `missing` in a trace: the first part of a condition that did not hold. `unsure.` before a key
 * says that the part hangs on something that a person must settle.
 */
export const MISSING_KEYS: readonly string[] = [
	'mark.place',
	'mark.kind',
	'mark.says',
	'mark.touches',
	'target.level',
	'target.fill',
	'prefer',
	...TECHNIQUES.map((value) => `technique.${value}`),
	...VOTE_COUNTS.map((value) => `votes.${value}`),
	...RANK_EVENTS.map((value) => `ranked.${value}`),
	...BALLOT_FACTS.map((value) => `ballot.${value}`),
	...(Object.keys(OPERATORS) as Operator[]).filter(
		(name) => !['all', 'any', 'mark', 'target', 'technique', 'votes', 'ranked', 'ballot', 'always'].includes(name)
	)
];
