import type { Choice, Contest, ContestKind, Election, TargetShape } from '$core/election/election';
import type { Layout } from '$core/layout/layout';
import type { Mark, MarkKind, MarkPlace, PageMarks, TargetLevel, TargetReading } from '$core/marks/mark';
import { readMachine } from '$core/reading/readMachine';
import { gatherFacts, type BallotFacts, type Told } from '$core/rules/facts';
import type { Saying } from '$core/rules/vocabulary';

/** "fill", or "check beside-target", or a mark in full. `says` is what a person has said of it. */
export type MarkSpec =
	| string
	| {
			readonly kind: MarkKind;
			readonly place?: MarkPlace;
			readonly confidence?: number;
			readonly alsoTouches?: readonly string[];
			readonly says?: Saying;
			readonly names?: string;
			readonly rank?: number;
	  };

/** What stands at one choice. Level and fill follow from the marks unless given. */
export type ChoiceSpec =
	| MarkSpec
	| readonly MarkSpec[]
	| { readonly marks: readonly MarkSpec[]; readonly level?: TargetLevel; readonly fill?: number };

export interface ContestSpec {
	readonly id?: string;
	readonly kind?: ContestKind;
	readonly voteFor?: number;
	readonly ranks?: number;
	readonly party?: string;
	/** By choice id. Ids that begin with W are write-in lines; YES and NO are answers. */
	readonly choices: Readonly<Record<string, ChoiceSpec>>;
	/** Marks in the contest's heading. */
	readonly heading?: readonly MarkSpec[];
	readonly page?: number;
	/** Party of each choice, in a party-preference contest. */
	readonly parties?: Readonly<Record<string, string>>;
}

export interface BallotSpec {
	readonly contests: readonly ContestSpec[];
	/** Marks in the margin. */
	readonly margin?: readonly MarkSpec[];
	readonly pages?: number;
	readonly seen?: readonly number[];
	readonly shape?: TargetShape;
	readonly told?: Omit<Told, 'words'>;
}

/** Share of the target that a mark of this kind covers, roughly; examples, not measurements. */
const FILL: Readonly<Partial<Record<MarkKind, number>>> = {
	fill: 0.95,
	scribble: 0.8,
	cross: 0.3,
	check: 0.3,
	stroke: 0.25,
	join: 0.25,
	dot: 0.05,
	erasure: 0.15,
	stain: 0.9,
	smudge: 0.3,
	unsure: 0.2
};
const LEVEL: Readonly<Partial<Record<MarkKind, TargetLevel>>> = {
	fill: 'dark',
	scribble: 'dark',
	cross: 'dark',
	check: 'dark',
	stroke: 'dark',
	join: 'dark',
	stain: 'dark',
	unsure: 'unsure'
};

/** Facts of a ballot drawn in words. Every contest stands on page 1 unless it says otherwise. */
export function picture({
	contests,
	margin = [],
	pages = 1,
	seen,
	shape = 'oval',
	told = {}
}: BallotSpec): BallotFacts {
	const words = new Map<string, { says: Saying; choice?: string }>();
	let count = 0;
	const make = (spec: MarkSpec, where: Pick<Mark, 'page'> & Partial<Mark>, fallback: MarkPlace): Mark => {
		const given: Exclude<MarkSpec, string> = typeof spec === 'string' ? parse(spec) : spec;
		const { kind, place = fallback, confidence = 0.95, alsoTouches, says, names, rank } = given;
		const id = `m${++count}`;
		if (says !== undefined) words.set(id, { says, ...(names === undefined ? {} : { choice: names }) });
		const box = { x: 0, y: 0, width: 1, height: 1 };
		return {
			...where,
			id,
			kind,
			place,
			confidence,
			darkness: 0.9,
			box,
			...(alsoTouches ? { alsoTouches } : {}),
			...(rank === undefined ? {} : { rank })
		};
	};
	const built = contests.map((spec, i) => ({ spec, contest: contestOf(spec, i) }));
	const pageMarks = (page: number): PageMarks => {
		const here = built.filter(({ spec }) => (spec.page ?? 1) === page);
		const marks: Mark[] = [];
		const targets: TargetReading[] = [];
		for (const { spec, contest } of here) {
			for (const { id } of contest.choices) {
				const at = { page, contest: contest.id, choice: id };
				const own = marksOf(spec.choices[id] ?? []).map((one) => make(one, at, placeFor(id, one)));
				marks.push(...own);
				targets.push(...targetsOf(contest, at, own, spec.choices[id] ?? []));
			}
			marks.push(...(spec.heading ?? []).map((one) => make(one, { page, contest: contest.id }, 'heading')));
		}
		if (page === 1) marks.push(...margin.map((one) => make(one, { page }, 'margin')));
		return { page, targets, marks };
	};
	const all = Array.from({ length: pages }, (_, i) => i + 1);
	const found = all.filter((page) => seen?.includes(page) ?? true).map(pageMarks);
	const shown = built.map(({ contest }) => contest);
	const machine = new Map(
		shown
			.filter(({ id }) => found.some(({ targets }) => targets.some((target) => target.contest === id)))
			.map((contest) => [contest.id, readMachine(contest, found)])
	);
	return gatherFacts(electionOf(shown), layoutOf(all, shape), found, machine, { ...told, words });
}

/** Facts of one contest: its choices and what stands at them. */
export const one = (choices: ContestSpec['choices'], rest: Omit<ContestSpec, 'choices'> = {}): BallotFacts =>
	picture({ contests: [{ id: 'contest', choices, ...rest }] });

const parse = (spec: string): { kind: MarkKind; place?: MarkPlace } => {
	const [kind, place] = spec.split(' ') as [MarkKind, MarkPlace | undefined];
	return place === undefined ? { kind } : { kind, place };
};

const marksOf = (spec: ChoiceSpec): readonly MarkSpec[] => {
	if (Array.isArray(spec)) return spec as readonly MarkSpec[];
	if (typeof spec === 'object' && 'marks' in spec) return spec.marks;
	return spec === '' ? [] : [spec as MarkSpec];
};

const ON_NAME: readonly MarkKind[] = ['ring', 'underline', 'strike'];

function placeFor(choice: string, spec: MarkSpec): MarkPlace {
	const kind = typeof spec === 'string' ? parse(spec).kind : spec.kind;
	if (kind === 'writing') return choice.startsWith('W') ? 'write-in' : 'after-name';
	return ON_NAME.includes(kind) ? 'on-name' : 'in-target';
}

function targetsOf(
	{ kind, ranks = 1 }: Contest,
	at: Pick<TargetReading, 'page' | 'contest' | 'choice'>,
	marks: readonly Mark[],
	spec: ChoiceSpec
): readonly TargetReading[] {
	const given = typeof spec === 'object' && 'marks' in spec ? spec : undefined;
	const reading = (inside: readonly Mark[]): Pick<TargetReading, 'fill' | 'level' | 'score' | 'darkness'> => {
		const fill = given?.fill ?? Math.max(0, ...inside.map((mark) => FILL[mark.kind] ?? 0));
		const levels = inside.map((mark) => LEVEL[mark.kind] ?? 'empty');
		const level = given?.level ?? (levels.includes('dark') ? 'dark' : levels.includes('unsure') ? 'unsure' : 'empty');
		return { fill, level, darkness: fill > 0 ? 0.9 : 0, score: fill };
	};
	const inside = marks.filter(({ place }) => place === 'in-target' || place === 'touching-target');
	if (kind !== 'ranked') return [{ ...at, ...reading(inside) }];
	return Array.from({ length: ranks }, (_, i) => ({
		...at,
		rank: i + 1,
		...reading(inside.filter(({ rank }) => rank === i + 1))
	}));
}

const text = { en: 'x', es: 'x' };

function contestOf({ id, kind = 'candidates', voteFor = 1, ranks, party, choices, parties }: ContestSpec, i: number) {
	const made = Object.keys(choices).map((choice): Choice => {
		const answer = choice === 'YES' ? 'yes' : choice === 'NO' ? 'no' : undefined;
		const of = parties?.[choice];
		return {
			id: choice,
			name: text,
			kind: answer ? 'answer' : choice.startsWith('W') ? 'write-in' : 'candidate',
			...(answer ? { answer } : {}),
			...(of === undefined ? {} : { party: of })
		};
	});
	const contest: Contest = {
		id: id ?? `contest-${i + 1}`,
		kind,
		title: text,
		voteFor,
		choices: made,
		...(ranks === undefined ? {} : { ranks }),
		...(party === undefined ? {} : { party })
	};
	return contest;
}

// Facts ask an election for its contests and styles and a layout for its pages, and for nothing else.
const electionOf = (contests: readonly Contest[]): Election =>
	({
		id: 'picture',
		contests,
		styles: [{ id: 'style', name: text, precincts: [], contests: contests.map(({ id }) => id) }]
	}) as unknown as Election;

const layoutOf = (pages: readonly number[], shape: TargetShape): Layout =>
	({ style: 'style', shape, pages: pages.map((page) => ({ page, choices: [] })) }) as unknown as Layout;
