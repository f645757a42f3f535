import type { Election } from '../election/election';
import type { Mark, MarkKind } from '../marks/mark';
import { isMishap, type Evidence } from './evidence';
import type { Situation, SituationId } from './situation';

/** Marks that stand for a choice on purpose but do not fill the target, even where a machine reads them. */
const HALF_MEASURES: ReadonlySet<MarkKind> = new Set(['check', 'cross', 'stroke', 'dot', 'ring', 'underline', 'join']);

/** On an arrow ballot the line that joins the arrow is the mark itself. */
const ARROW_MARKS: ReadonlySet<MarkKind> = new Set(['join', 'stroke', 'fill', 'scribble']);

/**
 * What is the matter with one choice. `full`: the machine already sees as many marks at other choices
 * as are allowed, so filling this one would be too many.
 */
export function ofChoice(evidence: Evidence, election: Election, full: boolean): readonly Situation[] {
	const { choice, level } = evidence;
	const make = (id: SituationId, marks: readonly Mark[]): Situation => ({
		id,
		choice,
		marks: marks.map(({ id }) => id)
	});
	if (evidence.strikes.length > 0) return [];
	const notes = evidence.outside.filter((mark) => mark.kind === 'writing' && !evidence.writing.includes(mark));
	const found = notes.length > 0 ? [make('note', notes)] : [];
	if (evidence.writeIn && evidence.writing.length > 0 && level !== 'dark')
		return [...found, make(full ? 'writeInTooMany' : 'writeInNoTarget', evidence.writing)];
	if (level === 'dark') return [...found, ...ofDark(evidence, election, make)];
	if (level === 'unsure') return [...found, ...ofUnsure(evidence, full, make)];
	return [...found, ...ofEmpty(evidence, election, full, make)];
}

type Make = (id: SituationId, marks: readonly Mark[]) => Situation;

function ofDark(evidence: Evidence, { target }: Election, make: Make): readonly Situation[] {
	const { inside, outside, writeIn, writing } = evidence;
	const found: Situation[] = [];
	const filled = inside.some(({ kind }) => (target.shape === 'arrow' ? ARROW_MARKS.has(kind) : kind === 'fill'));
	const mishaps = inside.filter(isMishap);
	const half = inside.filter(({ kind }) => HALF_MEASURES.has(kind));
	// A filled target is read with or without a stain on it; a stain alone is nobody's choice.
	if (!filled && inside.length > 0 && mishaps.length === inside.length) found.push(make(mishapOf(mishaps), mishaps));
	else if (!filled && half.length > 0 && half.length + mishaps.length === inside.length)
		found.push(make(half.every(({ kind }) => kind === 'dot') ? 'dot' : 'partial', half));
	if (writeIn) found.push(writing.length > 0 ? make('writeInRead', writing) : make('writeInNoName', inside));
	const extra = outside.filter((mark) => !isMishap(mark) && mark.kind !== 'writing');
	if (extra.length > 0) found.push(make('emphasis', extra));
	return found;
}

function ofUnsure({ inside }: Evidence, full: boolean, make: Make): readonly Situation[] {
	const mishaps = inside.filter(isMishap);
	if (inside.length > 0 && mishaps.length === inside.length) return [make(mishapOf(mishaps), mishaps)];
	if (inside.length > 0 && inside.every(({ kind }) => kind === 'dot')) return [make('dot', inside)];
	return [make(full ? 'lightTooMany' : 'light', inside)];
}

function ofEmpty(evidence: Evidence, election: Election, full: boolean, make: Make): readonly Situation[] {
	const { inside, outside } = evidence;
	const meant = [...inside, ...outside]
		.filter(({ kind }) => kind !== 'writing' && kind !== 'dot')
		.filter((m) => !isMishap(m));
	const besideDots = outside.filter(({ kind }) => kind === 'dot');
	const calm: Situation[] = [];
	const erasures = inside.filter(({ kind }) => kind === 'erasure');
	const mishaps = [...inside, ...outside].filter((mark) => isMishap(mark) && !erasures.includes(mark));
	if (erasures.length > 0) calm.push(make('erasedClean', erasures));
	if (mishaps.length > 0) calm.push(make('mishapNear', mishaps));
	const dots = [...inside.filter(({ kind }) => kind === 'dot'), ...besideDots];
	if (dots.length > 0) calm.push(make('dotNear', dots));
	if (meant.length === 0) return calm;
	return [make(full ? 'outsideTooMany' : missedAs(meant, election), meant), ...calm];
}

/** How a choice was marked that no machine reads. The old habit comes first: it explains the others. */
function missedAs(marks: readonly Mark[], { target, previousTarget }: Election): SituationId {
	if (target.shape !== 'arrow' && marks.some(({ kind }) => kind === 'join')) return 'join';
	const otherSide = previousTarget !== undefined && previousTarget.side !== target.side;
	if (otherSide && marks.some(isOnOtherSide)) return 'wrongSide';
	if (marks.some(({ place }) => place === 'in-target')) return 'faint';
	if (marks.some(({ kind }) => kind === 'ring')) return 'ring';
	if (marks.some(({ kind }) => kind === 'underline')) return 'underline';
	return 'beside';
}

/** Names run from the target outwards, so the space after a name is where a target on the other side would be. */
const isOnOtherSide = ({ kind, place }: Mark): boolean =>
	place === 'after-name' && kind !== 'ring' && kind !== 'underline';

const MISHAP_SITUATIONS: Readonly<Partial<Record<MarkKind, SituationId>>> = {
	erasure: 'erased',
	stain: 'stain',
	fold: 'fold',
	smudge: 'smudge'
};

const mishapOf = (marks: readonly Mark[]): SituationId => MISHAP_SITUATIONS[marks[0]?.kind ?? 'smudge'] ?? 'smudge';
