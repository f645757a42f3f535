import type { Contest } from '../election/election';
import type { Mark, MarkKind, PageMarks, TargetLevel } from '../marks/mark';
import type { MachineStatement } from '../reading/statement';

/** All that was found about one choice. */
export interface Evidence {
	readonly choice: string;
	readonly writeIn: boolean;
	/** The darkest level of its targets: a ranked contest has one for each rank. */
	readonly level: TargetLevel;
	/** Marks in its target or touching it. */
	readonly inside: readonly Mark[];
	/** Marks beside its target or on its name, on purpose or not. */
	readonly outside: readonly Mark[];
	/** Ink on its write-in line. */
	readonly writing: readonly Mark[];
	/** Marks that cross it out. */
	readonly strikes: readonly Mark[];
}

/** Kinds that happen to a sheet, as against those that a voter makes. */
const MISHAPS: ReadonlySet<MarkKind> = new Set(['smudge', 'erasure', 'stain', 'fold']);

export const isMishap = (mark: Mark): boolean => MISHAPS.has(mark.kind);

/** The evidence for every choice of a contest, in the contest's order. */
export function gatherEvidence(
	contest: Contest,
	pages: readonly PageMarks[],
	machine: MachineStatement
): readonly Evidence[] {
	const marks = pages.flatMap((page) => page.marks.filter((mark) => mark.contest === contest.id));
	return contest.choices.map(({ id, kind }) => {
		const mine = marks.filter((mark) => mark.choice === id);
		const level = darkest(machine.targets.filter((target) => target.choice === id).map((target) => target.level));
		const strikes = [
			...mine.filter((mark) => crossesOut(mark, level)),
			...marks.filter((mark) => mark.choice !== id && mark.kind === 'strike' && mark.alsoTouches?.includes(id))
		];
		const rest = mine.filter((mark) => !strikes.includes(mark));
		const writeIn = kind === 'write-in';
		return {
			choice: id,
			writeIn,
			level,
			inside: rest.filter(({ place }) => place === 'in-target' || place === 'touching-target'),
			outside: rest.filter(({ place }) => place === 'beside-target' || place === 'on-name' || place === 'after-name'),
			writing: writeIn ? rest.filter((mark) => isWriting(mark)) : [],
			strikes
		};
	});
}

function darkest(levels: readonly TargetLevel[]): TargetLevel {
	if (levels.includes('dark')) return 'dark';
	return levels.includes('unsure') ? 'unsure' : 'empty';
}

/**
 * A line through a name is a cross-out. An X or a scribble on a name is one only where the target holds
 * ink too: beside an empty target it may as well be somebody's way to choose.
 */
function crossesOut({ kind, place }: Mark, level: TargetLevel): boolean {
	if (kind === 'strike') return true;
	return level !== 'empty' && place === 'on-name' && (kind === 'scribble' || kind === 'cross');
}

const isWriting = (mark: Mark): boolean =>
	mark.place === 'write-in' ? !isMishap(mark) && mark.kind !== 'dot' : mark.kind === 'writing';
