import type { TargetShape, TargetSide } from '../election/election';
import { PX_PER_MM } from '../image';
import type { Features } from './features';
import { checkLikeness, crossLikeness, ringLikeness, scribbleLikeness, strokeLikeness, writingLikeness } from './forms';
import type { MarkKind } from './mark';
import { ramp } from './ramp';
import { holds, type Nearness, type Whereabouts } from './whereabouts';

export interface Verdict {
	readonly kind: MarkKind;
	/** 0 to 1. */
	readonly confidence: number;
}

/** A dot is at most this long, in millimetres. */
const DOT_MM = 1.9;

/** A likeness below this is nobody's; the mark is `unsure`. */
const LEAST_LIKENESS = 0.3;

/** What is less long than this, over its breadth, is no line. */
const LINE_ELONGATION = 3;

type Likeness = Partial<Record<MarkKind, number>>;

/** What a mark is by its form and by what lies under and around it. */
export function classify(features: Features, where: Whereabouts, shape: TargetShape, side: TargetSide): Verdict {
	const fill = plainFill(features, where, shape);
	return fill >= PLAIN_FILL ? { kind: 'fill', confidence: fill } : classifyByLikeness(features, where, shape, side);
}

/**
 * From this likeness to a fill on nothing else is near: what the mark may also be has at most the rest of 1, so that the
 * lead is half or more and the likeness is the confidence.
 */
const PLAIN_FILL = 0.75;

/**
 * Likeness of a mark to a filled target; 0 where it may be a line, a join, or words on a write-in line. Most marks that
 * voters make are plain fills, and this is known without following their lines.
 */
function plainFill(features: Features, { nearest, inkCount }: Whereabouts, shape: TargetShape): number {
	if (!nearest || shape === 'arrow' || nearest.inWriteIn > 0.5 * inkCount) return 0;
	if (features.elongation > LINE_ELONGATION) return 0;
	return fillLikeness(features, nearest, nearest.inTarget / Math.max(1, inkCount));
}

/** The same by its likeness to each kind. */
export function classifyByLikeness(
	features: Features,
	where: Whereabouts,
	shape: TargetShape,
	side: TargetSide
): Verdict {
	const likeness = likenessOf(features, where, shape, side);
	const ranked = Object.entries(likeness)
		.map(([kind, value]) => ({ kind: kind as MarkKind, value }))
		.sort((a, b) => b.value - a.value);
	const [first, second] = ranked;
	if (!first || first.value < LEAST_LIKENESS) return { kind: 'unsure', confidence: first ? first.value : 0 };
	const lead = first.value - (second?.value ?? 0);
	return { kind: first.kind, confidence: Math.min(1, first.value * (0.5 + Math.min(0.5, lead))) };
}

/** Each kind's likeness by form alone, then weighed by the place. */
function likenessOf(features: Features, where: Whereabouts, shape: TargetShape, side: TargetSide): Likeness {
	const found: Likeness = {
		stroke: strokeLikeness(features),
		check: checkLikeness(features),
		cross: crossLikeness(features),
		ring: ringLikeness(features),
		scribble: scribbleLikeness(features),
		dot: dotLikeness(features)
	};
	// What is round and small is not a line, whatever its skeleton; two clean lines that cross are no scribble.
	damp(found, ['stroke', 'check', 'cross', 'ring', 'scribble'], found.dot ?? 0);
	damp(found, ['scribble', 'stroke', 'check'], found.cross ?? 0);
	damp(found, ['scribble'], Math.max(found.ring ?? 0, found.check ?? 0, found.stroke ?? 0));
	const { nearest } = where;
	const ink = Math.max(1, where.inkCount);
	const inside = nearest ? nearest.inTarget / ink : 0;
	if (nearest) {
		found.fill = shape === 'arrow' ? 0 : fillLikeness(features, nearest, inside);
		damp(found, ['scribble', 'dot', 'cross', 'ring', 'stroke', 'check'], found.fill);
		const level = levelLine(features);
		const line = level > 0 ? lineKind(features, where, nearest, shape, side) : undefined;
		if (line) {
			found[line] = level;
			damp(found, ['stroke', 'scribble'], level);
		}
		// A single line across a name strikes it, whatever its slant.
		const across =
			line && line !== 'strike' ? 0 : Math.max(ramp(nearest.inName / ink, 0.35, 0.6), through(where, nearest));
		found.strike = Math.max(found.strike ?? 0, (found.stroke ?? 0) * across);
		damp(found, ['stroke'], across);
		if (nearest.inWriteIn > 0.5 * ink) {
			damp(found, KINDS_OF_FORM, 0.7);
			found.writing = 0.95;
			return found;
		}
	}
	const onPrint = nearest ? (nearest.onTarget + nearest.inName) / ink : 0;
	const writing = writingLikeness(features) * ramp(onPrint, 0.25, 0.08) * (1 - 0.8 * (found.ring ?? 0));
	found.writing = writing;
	// Off targets and names, a busy line in a row is a note; a loop or a cross of two pieces is part of one.
	damp(found, ['scribble', 'cross', 'ring', 'check', 'stroke'], writing * (features.pieces > 1 ? 0.9 : 0.5));
	return found;
}

/** 1 where a mark has its middle at a name and comes out of it above and below, 0 elsewhere. */
function through({ box, middleX, middleY }: Whereabouts, { name }: Nearness): number {
	const isAtName = holds(name, middleX, middleY);
	return isAtName && box.top < name.top && box.bottom > name.bottom ? 1 : 0;
}

const KINDS_OF_FORM = ['stroke', 'check', 'cross', 'ring', 'scribble', 'dot', 'fill'] as const;

/** Takes a share off some kinds. */
function damp(likeness: Likeness, kinds: readonly MarkKind[], share: number): void {
	for (const kind of kinds) likeness[kind] = (likeness[kind] ?? 0) * (1 - share);
}

function dotLikeness({ widthMm, heightMm, solidity, elongation }: Features): number {
	const longest = Math.max(widthMm, heightMm);
	return ramp(longest, DOT_MM * 1.2, DOT_MM * 0.9) * ramp(solidity, 0.55, 0.75) * ramp(elongation, 3, 2);
}

/** How well the mark fills the target it lies in. */
function fillLikeness(
	{ solidity, elongation }: Features,
	{ targetShare, acrossTarget, bothAcross }: Nearness,
	inside: number
): number {
	const covered = ramp(targetShare, 0.2, 0.42);
	const dense = ramp(solidity, 0.5, 0.75);
	// A dash is long and narrow; what covers half of the target, up and across, fills it whatever its form.
	const round = Math.max(ramp(elongation, 4, 3.2), ramp(bothAcross, 0.75, 0.9) * ramp(targetShare, 0.4, 0.5));
	return covered * round * (0.35 + 0.65 * dense) * ramp(acrossTarget, 0.25, 0.45) * ramp(inside, 0.3, 0.5);
}

/** How nearly the mark is one long line that is level or slants a little: 0 to 1. */
function levelLine({ widthMm, heightMm, strokes, elongation }: Features): number {
	const main = strokes[0];
	if (!main) return 0;
	const zigzags = strokes.reduce((sum, one) => sum + one.zigzags, 0);
	const turning = strokes.reduce((sum, one) => sum + one.turning, 0);
	const calm = ramp(turning, 9, 4) * (heightMm > 3 ? ramp(zigzags, 3, 1) : 1);
	const straight = ramp(main.bend, 0.3, 0.15) * ramp(main.bend * main.chordMm, 4, 2.2);
	return (
		ramp(Math.abs(main.slope), 0.6, 0.35) *
		ramp(elongation, LINE_ELONGATION, 5) *
		straight *
		ramp(widthMm, 1.8, 3) *
		calm
	);
}

/** What a level line is by where it runs. */
function lineKind(
	{ widthMm }: Features,
	{ box, middleY }: Whereabouts,
	{ target, name, inTarget, choice, inWriteIn }: Nearness,
	shape: TargetShape,
	side: TargetSide
): MarkKind | undefined {
	const nameWidth = name.right - name.left;
	const overName = Math.min(box.right, name.right) - Math.max(box.left, name.left);
	if (shape === 'arrow') {
		const joined = Math.min(box.right, target.right) - Math.max(box.left, target.left);
		if (joined > 0.5 * (target.right - target.left) && overName < 0.5 * nameWidth) return 'join';
	} else if (inTarget > 6 && overName <= 0.35 * nameWidth) {
		// The old habit: from the target over at least half of the gap to the name.
		const past = side === 'left' ? box.right - target.right : target.left - box.left;
		const other = side === 'left' ? target.left - box.left : box.right - target.right;
		const gap = side === 'left' ? name.left - target.right : target.left - name.right;
		if (past > 0.55 * gap && past > 1.2 * PX_PER_MM && past > 1.8 * other && widthMm > 3) return 'join';
	}
	const share = overName / Math.max(1, Math.min(nameWidth, box.right - box.left));
	if (share > 0.4 && overName > 2.5 * PX_PER_MM) {
		const lines = Math.max(1, Math.round((name.bottom - name.top) / NAME_LINE_PX));
		const descent = DESCENT_SHARE * ((name.bottom - name.top) / lines);
		if (middleY > name.bottom - descent) return 'underline';
		if (middleY > name.top - 2) return inWriteIn > 0 && choice.writeIn ? undefined : 'strike';
	}
	return undefined;
}

/** Height of one printed line of a name, in pixels, and the share of it under the letters' feet. */
const NAME_LINE_PX = 44;
const DESCENT_SHARE = 0.22;
