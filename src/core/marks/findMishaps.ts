import { grow } from '../geometry';
import { PX_PER_MM, PX_PER_PT, type PixelBox } from '../image';
import type { PageLayout } from '../layout/layout';
import type { Component } from './components';
import { cutCrease } from './cutCrease';
import type { Verdict } from './classify';
import type { Tones } from './separateTones';
import { edgesOf, holds, meets } from './whereabouts';

/** Pieces that happened to the sheet, with what they are. */
export interface Mishappening extends Verdict {
	readonly components: readonly Component[];
}

export interface Sorted {
	readonly mishaps: readonly Mishappening[];
	/** Everything else: what somebody drew. */
	readonly ink: readonly Component[];
}

/** Darkness, of 255, that a pen's stroke exceeds; a faint pen takes about a quarter of the light. Found by trial. */
const PALEST_PEN = 52;

/** A stain, a smear or ink from the other side is no darker than this, of 255; a coffee stain paler still. */
const DARKEST_SOFT = 140;
const DARKEST_STAIN = 66;

/**
 * An edge is soft where two pixels inside it the tone has reached less than this share of its peak. Found by
 * trial: a faint pen 0.92 to 1, ink from the other side 0.75 to 0.92, a smear 0.65 to 0.84.
 */
const SOFT_EDGE = 0.915;

/** A stain is at least so wide each way, in millimetres, and covers this share of its box. */
const STAIN_MM = 4.5;
const STAIN_SHARE = 0.55;

/** Narrower pieces have no inside to be soft in. */
const LEAST_SOFT_MM = 0.6;

/**
 * What keeps to one target may have been put there by a hand: this share of it lies in the target's box, or at most so many
 * pixels outside, and it covers this share of the box.
 */
const KEPT_SHARE = 0.9;
const KEPT_MARGIN_PX = 3;
const KEPT_COVERS = 0.5;

/** A fold runs from edge to edge of the page, this near, or lies this near to where the sheet is folded and is so long. */
const FOLD_EDGE_MM = 12;
const FOLD_NEAR_MM = 2.5;
const FOLD_LEAST_MM = 25;

/** A crease is at most so wide, in millimetres, and leads at most so far off its line. */
const FOLD_WIDTH_MM = 0.8;
const FOLD_STRAY_MM = 1.6;
const PIECE_LEAST_MM = 3;

/** Erasures and smears nearer than this are one, in millimetres. */
const ONE_MM = 2;

/** Sorts pieces into what somebody drew and what happened to the sheet: folds, stains, smears, erasures. */
export function findMishaps(tones: readonly Tones[], sheet: PageLayout, part: PixelBox): Sorted {
	const pieces = tones.flatMap(({ dark, pale }) => [
		...dark.map((component) => ({ component, hangsOn: false })),
		...pale.map((component) => ({ component, hangsOn: true }))
	]);
	const folds = findFolds(
		pieces.map(({ component }) => component),
		sheet,
		part
	);
	const folded = new Set(folds.flatMap(({ components }) => components));
	const soft: Mishappening[] = [];
	const ink: Component[] = [];
	const whole = folds.map(({ components, ...verdict }) => {
		const parts = components.map((component) =>
			cutCrease(component, component.right - component.left > component.bottom - component.top)
		);
		ink.push(...parts.flatMap(({ thick }) => thick));
		return { ...verdict, components: parts.flatMap(({ thin }) => thin) };
	});
	for (const { component, hangsOn } of pieces) {
		if (folded.has(component)) continue;
		const verdict = toneVerdict(component, hangsOn);
		// A faint fill, thickest in its middle, is as soft as a smear; felt-tip bled through is as pale as a faint fill.
		const mayBeFill = !hangsOn && component.peak >= PALEST_PEN && keepsToTarget(component, sheet);
		if (verdict && mayBeFill)
			soft.push({ kind: 'unsure', confidence: 1 - verdict.confidence, components: [component] });
		else if (verdict) soft.push({ ...verdict, components: [component] });
		else ink.push(component);
	}
	return { mishaps: [...whole.filter(({ components }) => components.length > 0), ...joinNear(soft)], ink };
}

/** What a pale or soft piece is by its tone; undefined for what a pen drew. */
function toneVerdict(component: Component, hangsOn: boolean): Verdict | undefined {
	const { peak, left, top, right, bottom, inkCount } = component;
	if (peak > DARKEST_SOFT) return undefined;
	const narrowMm = Math.min(right - left, bottom - top) / PX_PER_MM;
	const broad = inkCount / ((right - left) * (bottom - top));
	const isArea = narrowMm >= STAIN_MM && broad >= STAIN_SHARE;
	if (isArea && peak < DARKEST_STAIN) return { kind: 'stain', confidence: 0.9 };
	const edge = edgeOf(component);
	if (edge < SOFT_EDGE && narrowMm > LEAST_SOFT_MM) {
		if (isArea && !hangsOn) return { kind: 'stain', confidence: 0.75 };
		return { kind: 'smudge', confidence: hangsOn ? 0.85 : 0.65 + 2 * Math.min(0.1, SOFT_EDGE - edge) };
	}
	if (peak < PALEST_PEN)
		return hangsOn ? { kind: 'smudge', confidence: 0.6 } : { kind: 'erasure', confidence: peak < 40 ? 0.85 : 0.65 };
	return undefined;
}

/** Whether a piece lies almost wholly in one target and covers most of it; accidents do not stop at a printed line. */
function keepsToTarget(piece: Component, { choices }: PageLayout): boolean {
	return choices.some(({ target }) => {
		const edges = edgesOf(target);
		const { left, top, right, bottom } = edges;
		if (!meets(piece, edges, 0)) return false;
		const grown = edgesOf(grow(target, KEPT_MARGIN_PX / PX_PER_PT));
		let [inside, kept] = [0, 0];
		for (let i = 0; i < piece.xs.length; i++) {
			const [x, y] = [piece.xs[i] as number, piece.ys[i] as number];
			if (holds(edges, x, y)) inside += 1;
			if (holds(grown, x, y)) kept += 1;
		}
		return kept >= KEPT_SHARE * piece.xs.length && inside >= KEPT_COVERS * (right - left) * (bottom - top);
	});
}

/**
 * How far, as a share of its peak, the tone has risen two pixels inside a piece's edge: near 1 for ink,
 * which ends within a pixel.
 */
function edgeOf({ xs, ys, darks, left, top, right, bottom, peak }: Component): number {
	const width = right - left + 4;
	const tones = new Uint8Array(width * (bottom - top + 4));
	const member = new Uint8Array(tones.length);
	const at = (i: number) => ((ys[i] as number) - top + 2) * width + (xs[i] as number) - left + 2;
	for (let i = 0; i < xs.length; i++) {
		tones[at(i)] = darks[i] as number;
		member[at(i)] = 1;
	}
	let edges = 0;
	let sum = 0;
	for (let i = 0; i < xs.length; i++) {
		const here = at(i);
		const onEdge =
			member[here - 1] === 0 || member[here + 1] === 0 || member[here - width] === 0 || member[here + width] === 0;
		if (!onEdge || darks[i] === 0) continue;
		let most = 0;
		for (let dy = -2; dy <= 2; dy++)
			for (let dx = -2; dx <= 2; dx++) most = Math.max(most, tones[here + dy * width + dx] ?? 0);
		edges += 1;
		sum += Math.min(1, most / peak);
	}
	return edges === 0 ? 1 : sum / edges;
}

/** Pieces of a straight crease along or across the page, gathered line by line. */
function findFolds(components: readonly Component[], sheet: PageLayout, part: PixelBox): Mishappening[] {
	const folds: Mishappening[] = [];
	for (const level of [true, false]) {
		const lines: Component[][] = [];
		for (const piece of components) {
			if (!isCrease(piece, level)) continue;
			const middle = middleOf(piece, level);
			const line = lines.find(
				(one) => Math.abs(middleOf(one[0] as Component, level) - middle) < FOLD_STRAY_MM * PX_PER_MM
			);
			if (line) line.push(piece);
			else lines.push([piece]);
		}
		for (const pieces of lines) {
			const covered = pieces.reduce((sum, piece) => sum + lengthOf(piece, level), 0);
			const from = Math.min(...pieces.map(({ left, top }) => (level ? left : top)));
			const to = Math.max(...pieces.map(({ right, bottom }) => (level ? right : bottom)));
			const pageLength = (level ? sheet.widthPt : sheet.heightPt) * PX_PER_PT;
			const partFrom = level ? part.xPx : part.yPx;
			const partLength = level ? part.widthPx : part.heightPx;
			// In a window a crease runs from edge to edge of what is looked at.
			const edge = FOLD_EDGE_MM * PX_PER_MM;
			const isAcross =
				from <= Math.max(edge, partFrom + 2) && to >= Math.min(pageLength - edge, partFrom + partLength - 2);
			const known =
				level &&
				sheet.foldsPt.some(
					(fold) => Math.abs(fold * PX_PER_PT - middleOf(pieces[0] as Component, level)) < FOLD_NEAR_MM * PX_PER_MM
				);
			const long = isAcross && to - from >= FOLD_LEAST_MM * PX_PER_MM && covered > 0.5 * (to - from);
			if (long || (known && covered >= FOLD_LEAST_MM * PX_PER_MM))
				folds.push({ kind: 'fold', confidence: known && long ? 0.95 : 0.85, components: pieces });
		}
	}
	return folds;
}

const lengthOf = ({ left, right, top, bottom }: Component, level: boolean): number =>
	level ? right - left : bottom - top;

const middleOf = ({ left, right, top, bottom }: Component, level: boolean): number =>
	level ? (top + bottom) / 2 : (left + right) / 2;

function isCrease(piece: Component, level: boolean): boolean {
	const length = lengthOf(piece, level);
	const across = lengthOf(piece, !level);
	return (
		length >= PIECE_LEAST_MM * PX_PER_MM &&
		across <= Math.max(FOLD_STRAY_MM * PX_PER_MM, length / 60) &&
		across * 3 < length &&
		piece.xs.length / length <= FOLD_WIDTH_MM * PX_PER_MM
	);
}

/** Joins what is of one kind and near. */
function joinNear(soft: readonly Mishappening[]): Mishappening[] {
	const joined: { kind: Mishappening['kind']; confidence: number; components: Component[] }[] = [];
	for (const { kind, confidence, components } of soft) {
		const near = joined.filter(
			(one) => one.kind === kind && one.components.some((a) => components.some((b) => meets(a, b, ONE_MM * PX_PER_MM)))
		);
		const first = near[0];
		if (!first) {
			joined.push({ kind, confidence, components: [...components] });
			continue;
		}
		first.components.push(...components);
		first.confidence = Math.max(first.confidence, confidence);
		for (const other of near.slice(1)) {
			first.components.push(...other.components);
			joined.splice(joined.indexOf(other), 1);
		}
	}
	return joined;
}
