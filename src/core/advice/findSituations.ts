import type { Contest, Election } from '../election/election';
import type { Mark, MarkKind, PageMarks } from '../marks/mark';
import type { MachineStatement } from '../reading/statement';
import { gatherEvidence, isMishap, type Evidence } from './evidence';
import { ofChoice } from './ofChoice';
import { SITUATIONS, type Situation } from './situation';

/** Kinds with which one mark can take in two names. The tail of a long check mark only passes by. */
const TAKES_IN: ReadonlySet<MarkKind> = new Set(['ring', 'scribble', 'underline', 'unsure']);

/**
 * All that is the matter with one contest, most pressing first; `nothing`, `blank` or `undervote` where
 * there is no more to say. `machine` holds the statement on every contest seen, this one included.
 */
export function findSituations(
	contest: Contest,
	election: Election,
	pages: readonly PageMarks[],
	machine: ReadonlyMap<string, MachineStatement>
): readonly Situation[] {
	const statement = machine.get(contest.id);
	if (!statement)
		throw new RangeError(
			`findSituations: expected a machine statement on contest "${contest.id}", got none; read the contest first`
		);
	const evidence = gatherEvidence(contest, pages, statement);
	const dark = evidence.filter(({ level }) => level === 'dark').length;
	const isFull = ({ level }: Evidence): boolean =>
		contest.kind !== 'ranked' && level !== 'dark' && dark >= contest.voteFor;
	const found = [
		...ofParties(contest, election, machine),
		...ofCrossOuts(evidence),
		...ofTooMany(contest, statement, evidence),
		...ofShared(contest, evidence),
		...evidence.flatMap((one) => ofChoice(one, election, isFull(one))),
		...ofHeading(contest, pages)
	];
	return [...found, ...ofRest(contest, statement, found)].sort(
		(a, b) => SITUATIONS.indexOf(a.id) - SITUATIONS.indexOf(b.id)
	);
}

/** In a primary with a rule on it: marks for two parties, in their contests or in the choice of a party. */
function ofParties(
	contest: Contest,
	election: Election,
	machine: ReadonlyMap<string, MachineStatement>
): readonly Situation[] {
	if (!election.primaryRule) return [];
	const own = markedParty(contest, machine);
	if (own === undefined) return [];
	const others = election.contests.map((one) => markedParty(one, machine));
	const other = others.find((party) => party !== undefined && party !== own);
	return other === undefined ? [] : [{ id: 'crossover', marks: [], values: { party: own, otherParty: other } }];
}

/** The party that the marks in a contest are for: that of the contest, or the one chosen in the choice of a party. */
function markedParty(
	{ id, kind, party, choices }: Contest,
	machine: ReadonlyMap<string, MachineStatement>
): string | undefined {
	const statement = machine.get(id);
	if (!statement || statement.state === 'blank') return undefined;
	if (kind !== 'party-preference') return party;
	const [chosen, ...more] = statement.votes;
	return more.length > 0 ? undefined : choices.find((choice) => choice.id === chosen)?.party;
}

function ofCrossOuts(evidence: readonly Evidence[]): readonly Situation[] {
	const others = evidence.some(({ level, strikes }) => level === 'dark' && strikes.length === 0);
	return evidence
		.filter(({ strikes }) => strikes.length > 0)
		.map(({ choice, level, strikes, inside }) => ({
			id: !others ? 'crossOutAlone' : level === 'empty' ? 'crossOutClean' : 'crossOut',
			choice,
			marks: [...strikes, ...inside].map(({ id }) => id)
		}));
}

/** More dark targets than allowed, unless a cross-out already says why. */
function ofTooMany(
	{ kind, voteFor }: Contest,
	{ state }: MachineStatement,
	evidence: readonly Evidence[]
): readonly Situation[] {
	if (state !== 'overvote') return [];
	const dark = evidence.filter(({ level }) => level === 'dark');
	const kept = dark.filter(({ strikes }) => strikes.length === 0);
	if (kept.length < dark.length && kept.length <= voteFor) return [];
	const marks = kept.flatMap(({ inside }) => inside.map(({ id }) => id));
	if (kind === 'measure' || kind === 'retention') return [{ id: 'yesAndNo', marks }];
	if (kept.some(({ writeIn }) => writeIn)) return [{ id: 'overvoteWriteIn', marks, values: { count: voteFor } }];
	return [{ id: 'overvote', marks, values: { count: voteFor } }];
}

/** One mark that takes in two choices, none of which a machine reads by its own target. */
function ofShared({ choices }: Contest, evidence: readonly Evidence[]): readonly Situation[] {
	const isRead = (choice: string): boolean => evidence.some((one) => one.choice === choice && one.level === 'dark');
	const order = choices.map(({ id }) => id);
	return evidence
		.flatMap(({ outside, inside }) => [...outside, ...inside])
		.flatMap((mark): readonly Situation[] => {
			const touched = order.filter((id) => id === mark.choice || mark.alsoTouches?.includes(id));
			const [first, second] = touched;
			if (first === undefined || second === undefined || !TAKES_IN.has(mark.kind) || touched.some(isRead)) return [];
			return [{ id: 'touchesTwo', marks: [mark.id], values: { choice: first, otherChoice: second } }];
		});
}

/** Marks of the contest at no choice: notes a voter wrote, and strays. */
function ofHeading({ id }: Contest, pages: readonly PageMarks[]): readonly Situation[] {
	const marks = pages.flatMap((page) => page.marks.filter((mark) => mark.contest === id && mark.choice === undefined));
	const notes = marks.filter(({ kind }) => kind === 'writing');
	const strays = marks.filter((mark) => mark.kind !== 'writing' && !isMishap(mark));
	const mishaps = marks.filter(isMishap);
	const ids = (list: readonly Mark[]): readonly string[] => list.map((mark) => mark.id);
	return [
		...(notes.length > 0 ? [{ id: 'note' as const, marks: ids(notes) }] : []),
		...(strays.length > 0 ? [{ id: 'stray' as const, marks: ids(strays) }] : []),
		...(mishaps.length > 0 ? [{ id: 'mishapNear' as const, marks: ids(mishaps) }] : [])
	];
}

/** What is left to say: that more is allowed, that nothing was found, or that nothing need be done. */
function ofRest(
	{ voteFor }: Contest,
	{ state, votes }: MachineStatement,
	found: readonly Situation[]
): readonly Situation[] {
	const open = voteFor - votes.length;
	const quiet = found.every(({ id }) => QUIET.has(id));
	if (state === 'undervote' && open > 0 && quiet) return [{ id: 'undervote', marks: [], values: { count: open } }];
	if (state === 'blank' && quiet) return [{ id: 'blank', marks: [] }];
	return found.length === 0 ? [{ id: 'nothing', marks: [] }] : [];
}

/** Situations beside which "you may choose more" is still worth saying. */
const QUIET: ReadonlySet<Situation['id']> = new Set([
	'crossOutClean',
	'erasedClean',
	'dotNear',
	'mishapNear',
	'emphasis',
	'stray',
	'writeInRead'
]);
