import { graphOf, lengthOf, type Branch } from './graph';
import type { Shape } from './shape';
import type { Skeleton } from './skeleton';

/** A line as a pen may have drawn it, put together from the skeleton. In pixels of the shape. */
export interface PenStroke {
	/** x0, y0, x1, y1, … */
	readonly points: readonly number[];
	readonly length: number;
	/** Its two ends are the same node. */
	readonly closed: boolean;
}

/** Crossings nearer than this many widths of the line are one. */
const MERGED_WIDTHS = 1.6;

/**
 * In a form of few branches, a link of up to this share of all its length is two lines that run along each
 * other for a while as they cross. Found by trial.
 */
const MERGED_SHARE = 0.16;
const FEW_BRANCHES = 8;

/** A spur shorter than this many widths comes from a rough edge. */
const SPUR_WIDTHS = 1.1;
const LEAST_SPUR_PX = 3;

/** Two branches that meet at less than this turn, in radians, are one stroke through the crossing. */
const STRAIGHT_ON = 0.9;

/**
 * The strokes behind a skeleton: spurs are cut, crossings close together become one, and at each
 * crossing branches that go straight on are joined. `widthPx`: how wide the line is.
 */
export function penStrokes(shape: Shape, skeleton: Skeleton, widthPx: number): PenStroke[] {
	const graph = graphOf(shape, skeleton);
	let branches: Branch[] = [...graph.branches];
	const parent = graph.nodes.map((_, i) => i);
	const root = (node: number): number => {
		let at = node;
		while (parent[at] !== at) at = parent[at] as number;
		return at;
	};
	const degrees = () => {
		const count = new Map<number, number>();
		for (const { from, to } of branches) {
			count.set(root(from), (count.get(root(from)) ?? 0) + 1);
			count.set(root(to), (count.get(root(to)) ?? 0) + 1);
		}
		return count;
	};
	// Short links between two crossings first: a cut spur would hide that they were crossings.
	let count = degrees();
	const total = branches.reduce((sum, { length }) => sum + length, 0);
	const longestLink = Math.max(MERGED_WIDTHS * widthPx, branches.length <= FEW_BRANCHES ? MERGED_SHARE * total : 0);
	for (const { from, to, length } of [...branches].sort((a, b) => a.length - b.length)) {
		if (length > longestLink) break;
		const [a, b] = [root(from), root(to)];
		if (a !== b && (count.get(a) ?? 0) >= 3 && (count.get(b) ?? 0) >= 3) {
			parent[a] = b;
			count = degrees();
		}
	}
	branches = branches.filter(
		({ from, to, length }) => root(from) !== root(to) || length > Math.max(longestLink, 2 * widthPx)
	);
	const leastSpur = Math.max(LEAST_SPUR_PX, SPUR_WIDTHS * widthPx);
	for (;;) {
		count = degrees();
		let shortest = -1;
		for (const [i, { from, to, length }] of branches.entries()) {
			const [a, b] = [count.get(root(from)) ?? 0, count.get(root(to)) ?? 0];
			const isSpur = (a === 1 && b >= 3) || (b === 1 && a >= 3);
			if (!isSpur || length > leastSpur) continue;
			if (shortest === -1 || length < (branches[shortest] as Branch).length) shortest = i;
		}
		if (shortest === -1) break;
		branches.splice(shortest, 1);
	}
	return joinStraight(branches, root, widthPx);
}

interface End {
	readonly branch: number;
	readonly atStart: boolean;
	readonly angle: number;
}

/** Pairs the ends at each node by how straight they go on, then follows the pairs. */
function joinStraight(branches: readonly Branch[], root: (node: number) => number, widthPx: number): PenStroke[] {
	const ends = new Map<number, End[]>();
	const add = (node: number, end: End) => {
		const list = ends.get(node);
		if (list) list.push(end);
		else ends.set(node, [end]);
	};
	branches.forEach(({ from, to, points }, branch) => {
		add(root(from), { branch, atStart: true, angle: angleFrom(points, true, widthPx) });
		add(root(to), { branch, atStart: false, angle: angleFrom(points, false, widthPx) });
	});
	const partner = new Map<string, End>();
	for (const list of ends.values()) {
		const pairs: { a: End; b: End; turn: number }[] = [];
		for (let i = 0; i < list.length; i++)
			for (let j = i + 1; j < list.length; j++) {
				const [a, b] = [list[i] as End, list[j] as End];
				pairs.push({ a, b, turn: Math.PI - between(a.angle, b.angle) });
			}
		pairs.sort((p, q) => p.turn - q.turn);
		for (const { a, b, turn } of pairs) {
			// Where only two ends meet, a spur was cut: they go on whatever the turn.
			if (turn > STRAIGHT_ON && list.length > 2) break;
			if (partner.has(key(a)) || partner.has(key(b))) continue;
			partner.set(key(a), b);
			partner.set(key(b), a);
		}
	}
	const used = new Set<number>();
	const strokes: PenStroke[] = [];
	const follow = (branch: number, forward: boolean) => {
		const points: number[] = [];
		let at = branch;
		let ahead = forward;
		let closed = false;
		for (;;) {
			used.add(at);
			const own = (branches[at] as Branch).points;
			append(points, ahead ? own : reversed(own));
			const next = partner.get(key({ branch: at, atStart: !ahead, angle: 0 }));
			if (!next) break;
			if (used.has(next.branch)) {
				closed = next.branch === branch;
				break;
			}
			at = next.branch;
			ahead = next.atStart;
		}
		strokes.push({ points, length: lengthOf(points), closed });
	};
	branches.forEach((_, branch) => {
		if (used.has(branch)) return;
		if (!partner.has(key({ branch, atStart: true, angle: 0 }))) follow(branch, true);
		else if (!partner.has(key({ branch, atStart: false, angle: 0 }))) follow(branch, false);
	});
	branches.forEach((_, branch) => {
		if (!used.has(branch)) follow(branch, true);
	});
	return strokes;
}

const key = ({ branch, atStart }: End): string => `${branch}${atStart ? 's' : 'e'}`;

/** Direction in which a branch leaves its end, measured past the crossing's own width. */
function angleFrom(points: readonly number[], atStart: boolean, widthPx: number): number {
	const count = points.length / 2;
	const at = (i: number) => {
		const k = 2 * (atStart ? i : count - 1 - i);
		return [points[k] as number, points[k + 1] as number] as const;
	};
	const [x0, y0] = at(0);
	let [nearX, nearY] = [x0, y0];
	let [x, y] = [x0, y0];
	for (let i = 1; i < count; i++) {
		[x, y] = at(i);
		const far = Math.hypot(x - x0, y - y0);
		if (far <= 0.8 * widthPx) [nearX, nearY] = [x, y];
		if (far >= 2.5 * widthPx + 3) break;
	}
	if (x === nearX && y === nearY) [nearX, nearY] = [x0, y0];
	return Math.atan2(y - nearY, x - nearX);
}

function between(a: number, b: number): number {
	const apart = Math.abs(a - b) % (2 * Math.PI);
	return apart > Math.PI ? 2 * Math.PI - apart : apart;
}

function append(points: number[], more: readonly number[]): void {
	for (const value of more) points.push(value);
}

function reversed(points: readonly number[]): number[] {
	const back: number[] = [];
	for (let i = points.length - 2; i >= 0; i -= 2) back.push(points[i] as number, points[i + 1] as number);
	return back;
}
