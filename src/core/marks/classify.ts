import type { TargetShape, TargetSide } from '../election/election';
import { PX_PER_MM } from '../image';
import type { Features } from './features';
import { checkLikeness, crossLikeness, ringLikeness, scribbleLikeness, strokeLikeness } from './forms';
import type { MarkKind } from './mark';
import { ramp } from './ramp';
import type { Nearness, Whereabouts } from './whereabouts';

export interface Verdict {
	readonly kind: MarkKind;
	/** 0 to 1. */
	readonly confidence: number;
}

/** A dot is at most this long, in millimetres. */
const DOT_MM = 1.9;

/** A likeness below this is nobody's; the mark is `unsure`. */
const LEAST_LIKENESS = 0.35;

/** What a mark is by its form and by what lies under and around it. */
export function classify(features: Features, where: Whereabouts, shape: TargetShape, side: TargetSide): Verdict {
	const likeness = likenessOf(features, where, shape, side);
	const ranked = Object.entries(likeness)
		.map(([kind, value]) => ({ kind: kind as MarkKind, value }))
		.sort((a, b) => b.value - a.value);
	const [first, second] = ranked;
	if (!first || first.value < LEAST_LIKENESS) return { kind: 'unsure', confidence: first ? first.value : 0 };
	const lead = first.value - (second?.value ?? 0);
	const confidence = Math.min(1, first.value * (0.5 + Math.min(0.5, lead)));
	return { kind: first.kind, confidence };
}

function likenessOf(
	features: Features,
	where: Whereabouts,
	shape: TargetShape,
	side: TargetSide
): Partial<Record<MarkKind, number>> {
	const { nearest } = where;
	const longest = Math.max(features.widthMm, features.heightMm);
	const inside = nearest ? nearest.inTarget / Math.max(1, where.inkCount) : 0;
	const onLine = nearest ? nearest.inWriteIn / Math.max(1, where.inkCount) : 0;
	const stroke = strokeLikeness(features);
	const found: Partial<Record<MarkKind, number>> = {
		stroke,
		check: checkLikeness(features),
		cross: crossLikeness(features),
		ring: ringLikeness(features),
		scribble: scribbleLikeness(features),
		dot: longest <= DOT_MM && features.solidity > 0.65 ? 1 : 0
	};
	if (nearest) {
		const fill = fillLikeness(features, nearest, inside, shape);
		found.fill = fill;
		if (fill > 0.6)
			for (const kind of ['scribble', 'dot', 'cross', 'ring', 'stroke', 'check'] as const)
				found[kind] = (found[kind] ?? 0) * (1 - fill);
		const level = levelLine(features, where);
		if (level > 0) {
			const lines = lineKind(features, where, nearest, shape, side);
			if (lines) {
				found[lines] = level;
				found.stroke = 0.6 * stroke * (1 - level);
			}
		}
		if (onLine > 0.5) {
			found.writing = 0.95;
			for (const kind of ['stroke', 'check', 'cross', 'ring', 'scribble', 'dot', 'fill'] as const)
				found[kind] = 0.4 * (found[kind] ?? 0);
		}
	}
	return found;
}

/** How well the mark fills the target it lies in. */
function fillLikeness(
	{ solidity, strokes, thickestMm, penMm }: Features,
	nearest: Nearness,
	inside: number,
	shape: TargetShape
): number {
	const { targetShare, acrossTarget } = nearest;
	if (shape === 'arrow') return 0;
	if (inside < 0.4) return 0;
	const covered = ramp(targetShare, 0.3, 0.55);
	const dense = ramp(solidity, 0.45, 0.75);
	return (
		Math.min(1, covered * (0.4 + 0.6 * dense) * ramp(acrossTarget, 0.4, 0.7)) *
		(strokes.length <= 2 && thickestMm < 1.7 * penMm ? 0.7 : 1)
	);
}

/** How nearly the mark is one long level line: 0 to 1. */
function levelLine({ widthMm, heightMm, strokes }: Features, { nearest }: Whereabouts): number {
	const main = strokes[0];
	if (!main || !nearest) return 0;
	const flat = ramp(widthMm / Math.max(0.3, heightMm), 2.2, 4.5);
	return flat * ramp(main.bend, 0.3, 0.15) * ramp(widthMm, 2, 3.5);
}

/** What a level line is by where it runs. */
function lineKind(
	{ widthMm }: Features,
	{ box, middleY }: Whereabouts,
	{ target, name, inTarget, inName, choice, writeIn, inWriteIn }: Nearness,
	shape: TargetShape,
	side: TargetSide
): MarkKind | undefined {
	const reaches = side === 'left' ? box.right >= name.left - 0.8 * PX_PER_MM : box.left <= name.right + 0.8 * PX_PER_MM;
	const overName = Math.min(box.right, name.right) - Math.max(box.left, name.left);
	const share = overName / Math.max(1, Math.min(name.right - name.left, box.right - box.left));
	if (shape === 'arrow') {
		const joined = Math.min(box.right, target.right) - Math.max(box.left, target.left);
		if (joined > 0.5 * (target.right - target.left) && overName < 0.5 * (name.right - name.left)) return 'join';
	} else if (inTarget > 6 && overName <= 0.35 * (name.right - name.left)) {
		const past = side === 'left' ? box.right - target.right : target.left - box.left;
		const gap = side === 'left' ? name.left - target.right : target.left - name.right;
		if (past > 0.55 * gap && past > 1.2 * PX_PER_MM && (reaches || widthMm > 4)) return 'join';
	}
	if (share > 0.4 && overName > 2.5 * PX_PER_MM) {
		const lines = Math.max(1, Math.round((name.bottom - name.top) / 47));
		const descent = 0.22 * ((name.bottom - name.top) / lines);
		if (middleY > name.bottom - descent) return 'underline';
		if (middleY > name.top - 2) return inWriteIn > 0 && writeIn ? undefined : 'strike';
	}
	if (choice.writeIn && inTarget > 6) return undefined;
	return inName > 20 ? 'strike' : undefined;
}
