import type { Shape } from './shape';
import type { Skeleton } from './skeleton';

/** A place where the skeleton ends or branches, in pixels of the shape. */
export interface Node {
	readonly x: number;
	readonly y: number;
}

/** A piece of skeleton between two nodes: its points x0, y0, x1, y1, … from `from` to `to`. */
export interface Branch {
	readonly from: number;
	readonly to: number;
	readonly points: readonly number[];
	readonly length: number;
}

/** The skeleton as a graph. A closed loop with no node gets one node and one branch from it to itself. */
export interface Graph {
	readonly nodes: readonly Node[];
	readonly branches: readonly Branch[];
}

/** Reads nodes and branches off a one pixel wide skeleton. */
export function graphOf({ width, height }: Shape, { bits }: Skeleton): Graph {
	const nodeOf = new Int32Array(bits.length).fill(-1);
	const nodes: { x: number; y: number }[] = [];
	const list: number[] = [];
	for (let y = 1; y < height - 1; y++)
		for (let x = 1; x < width - 1; x++) if (bits[y * width + x] === 1) list.push(y * width + x);
	const offsets = [-width, 1, width, -1, -width + 1, width + 1, width - 1, -width - 1];
	const isNode = (at: number) => {
		const count = degree(bits, offsets, at);
		return count <= 1 || rises(bits, width, at) >= 3;
	};
	for (const at of list) {
		if (nodeOf[at] !== -1 || !isNode(at)) continue;
		// Neighbouring branch pixels are one node, at their middle.
		const id = nodes.length;
		const cluster = [at];
		nodeOf[at] = id;
		for (let i = 0; i < cluster.length; i++)
			for (const offset of offsets) {
				const beside = (cluster[i] as number) + offset;
				if (bits[beside] !== 1 || nodeOf[beside] !== -1 || !isNode(beside)) continue;
				nodeOf[beside] = id;
				cluster.push(beside);
			}
		let [sumX, sumY] = [0, 0];
		for (const member of cluster) {
			sumX += member % width;
			sumY += Math.floor(member / width);
		}
		nodes.push({ x: sumX / cluster.length, y: sumY / cluster.length });
	}
	const branches: Branch[] = [];
	const used = new Uint8Array(bits.length);
	const seenPairs = new Set<number>();
	const touchesNode = (at: number, node: number) => offsets.some((offset) => nodeOf[at + offset] === node);
	const walk = (node: number, start: number, first: number) => {
		const points: number[] = [(nodes[node] as Node).x, (nodes[node] as Node).y];
		let before = start;
		let at = first;
		let end = -1;
		for (;;) {
			const owner = nodeOf[at] as number;
			if (owner !== -1) {
				end = owner;
				break;
			}
			used[at] = 1;
			points.push(at % width, Math.floor(at / width));
			let next = -1;
			for (const offset of offsets) {
				const beside = at + offset;
				if (beside === before || bits[beside] !== 1) continue;
				const owned = nodeOf[beside] as number;
				if (owned === -1 && used[beside] === 1) continue;
				// The first pixels of two branches of one node may touch: step neither into the other nor back.
				if (points.length === 4 && (owned === node || touchesNode(beside, node))) continue;
				next = beside;
				if (owned !== -1) break;
			}
			if (next === -1) break;
			before = at;
			at = next;
		}
		if (end === -1) {
			end = nodes.length;
			nodes.push({ x: points.at(-2) as number, y: points.at(-1) as number });
		} else points.push((nodes[end] as Node).x, (nodes[end] as Node).y);
		branches.push({ from: node, to: end, points, length: lengthOf(points) });
	};
	for (const at of list) {
		const node = nodeOf[at] as number;
		if (node === -1) continue;
		for (const offset of offsets) {
			const beside = at + offset;
			if (bits[beside] !== 1) continue;
			const owner = nodeOf[beside] as number;
			if (owner === node) continue;
			if (owner !== -1) {
				const pair = Math.min(node, owner) * nodes.length * 4 + Math.max(node, owner);
				if (seenPairs.has(pair)) continue;
				seenPairs.add(pair);
				const a = nodes[node] as Node;
				const b = nodes[owner] as Node;
				branches.push({
					from: node,
					to: owner,
					points: [a.x, a.y, b.x, b.y],
					length: Math.hypot(a.x - b.x, a.y - b.y)
				});
			} else if (used[beside] === 0) walk(node, at, beside);
		}
	}
	for (const at of list) {
		if (used[at] === 1 || nodeOf[at] !== -1) continue;
		// A loop without a node: any of its pixels will do.
		const id = nodes.length;
		nodes.push({ x: at % width, y: Math.floor(at / width) });
		nodeOf[at] = id;
		const first = offsets.map((offset) => at + offset).find((beside) => bits[beside] === 1 && used[beside] === 0);
		if (first !== undefined) walk(id, at, first);
	}
	return { nodes, branches };
}

function degree(bits: Uint8Array, offsets: readonly number[], at: number): number {
	let count = 0;
	for (const offset of offsets) count += bits[at + offset] as number;
	return count;
}

/** How often the ring around a pixel goes from empty to set. */
function rises(bits: Uint8Array, width: number, at: number): number {
	const ring = [-width, -width + 1, 1, width + 1, width, width - 1, -1, -width - 1];
	let count = 0;
	for (let i = 0; i < 8; i++)
		if (bits[at + (ring[i] as number)] === 0 && bits[at + (ring[(i + 1) % 8] as number)] === 1) count += 1;
	return count;
}

/** Length of a line through points x0, y0, x1, y1, … */
export function lengthOf(points: readonly number[]): number {
	let length = 0;
	for (let i = 2; i < points.length; i += 2)
		length += Math.hypot(
			(points[i] as number) - (points[i - 2] as number),
			(points[i + 1] as number) - (points[i - 1] as number)
		);
	return length;
}
