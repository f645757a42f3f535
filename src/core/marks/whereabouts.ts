import type { Box } from '../geometry';
import { PX_PER_MM, PX_PER_PT } from '../image';
import type { ChoiceLayout, PageLayout } from '../layout/layout';
import type { Component } from './components';

/** Ink this far outside a target's outer box is still on its line, in pixels. */
const ON_LINE_PX = 2;

/** How far from a row a mark may be and still belong to it, in millimetres. */
const ROW_REACH_MM = 3;

/** A mark touches a target or a name when it has this many pixels of ink in it. */
const TOUCH_PX = 8;

/** A box in whole pixels; right and bottom are one past the last. */
export interface Edges {
	readonly left: number;
	readonly top: number;
	readonly right: number;
	readonly bottom: number;
}

/** How a mark lies to one choice. Counts of its pixels of ink. */
export interface Nearness {
	readonly choice: ChoiceLayout;
	readonly target: Edges;
	readonly name: Edges;
	readonly writeIn?: Edges;
	/** Inside the target's outer box. */
	readonly inTarget: number;
	/** Inside it or on its line. */
	readonly onTarget: number;
	readonly inName: number;
	readonly inWriteIn: number;
	/** Share of the target's width and height that the ink inside it spans: the larger and the smaller. */
	readonly acrossTarget: number;
	readonly bothAcross: number;
	/** Share of the target's box that is ink. */
	readonly targetShare: number;
	/** Whether the box of the mark holds the middle of the target and the middle of the name. */
	readonly holdsTarget: boolean;
	readonly holdsName: boolean;
}

/** Where a mark is, before its kind is known. */
export interface Whereabouts {
	readonly box: Edges;
	readonly middleX: number;
	readonly middleY: number;
	readonly inkCount: number;
	/** The choice it belongs to, if any, and others that it touches. */
	readonly nearest?: Nearness;
	readonly others: readonly Nearness[];
	/** The contest in whose box its middle lies, and whether it lies in that contest's heading. */
	readonly contest?: string;
	readonly inHeading: boolean;
}

/** Measures how a group of components lies to everything printed on its page. */
export function whereaboutsOf(components: readonly Component[], page: PageLayout): Whereabouts {
	const box = {
		left: Math.min(...components.map((c) => c.left)),
		top: Math.min(...components.map((c) => c.top)),
		right: Math.max(...components.map((c) => c.right)),
		bottom: Math.max(...components.map((c) => c.bottom))
	};
	let [sumX, sumY, inkCount] = [0, 0, 0];
	for (const { xs, ys, darks } of components)
		for (let i = 0; i < xs.length; i++) {
			if (darks[i] === 0) continue;
			sumX += (xs[i] as number) + 0.5;
			sumY += (ys[i] as number) + 0.5;
			inkCount += 1;
		}
	const middleX = sumX / Math.max(1, inkCount);
	const middleY = sumY / Math.max(1, inkCount);
	const reach = ROW_REACH_MM * PX_PER_MM;
	const near = page.choices
		.filter((choice) => [choice.row, choice.name, choice.target].some((b) => meets(edgesOf(b), box, reach)))
		.map((choice) => nearnessOf(components, box, choice));
	const ranked = near
		.map((one) => ({ one, rank: claimOf(one, middleX, middleY) }))
		.filter(({ rank }) => rank > 0)
		.sort((a, b) => b.rank - a.rank);
	const nearest = ranked[0]?.one;
	const contest = page.contests.find(({ box: own }) => holds(edgesOf(own), middleX, middleY));
	const contestId = nearest?.choice.contest ?? contest?.contest;
	return {
		box,
		middleX,
		middleY,
		inkCount,
		...(nearest ? { nearest } : {}),
		others: near.filter((one) => one !== nearest && touches(one)),
		...(contestId === undefined ? {} : { contest: contestId }),
		inHeading: contest !== undefined && holds(edgesOf(contest.heading), middleX, middleY)
	};
}

const touches = ({ onTarget, inName, inWriteIn }: Nearness): boolean =>
	onTarget >= TOUCH_PX || inName >= TOUCH_PX || inWriteIn >= TOUCH_PX;

/** How strongly a choice lays claim to a mark: ink in its target most, then on its name and line, then nearness. */
function claimOf(one: Nearness, middleX: number, middleY: number): number {
	const { target, name, writeIn, choice } = one;
	const row = edgesOf(choice.row);
	const half = (row.bottom - row.top) / 2;
	const off = Math.max(0, Math.abs(middleY - (row.top + row.bottom) / 2) - half) / PX_PER_MM;
	const beyond = Math.max(0, row.left - middleX, middleX - row.right) / PX_PER_MM;
	const inside = holds(target, middleX, middleY) ? 2 : 0;
	const ink = 3 * one.inTarget + one.inName + one.inWriteIn;
	const surrounds = (one.holdsTarget ? 0.5 : 0) + (one.holdsName ? 0.5 : 0);
	const own = holds(name, middleX, middleY) || (writeIn && holds(writeIn, middleX, middleY)) ? 1 : 0;
	return ink / (ink + 60) + inside + own + surrounds + Math.max(0, 1 - off / ROW_REACH_MM - beyond / 40);
}

function nearnessOf(components: readonly Component[], box: Edges, choice: ChoiceLayout): Nearness {
	const target = edgesOf(choice.target);
	const name = edgesOf(choice.name);
	const writeIn = choice.writeIn ? edgesOf(choice.writeIn) : undefined;
	let [inTarget, onTarget, inName, inWriteIn, all] = [0, 0, 0, 0, 0];
	let [minX, maxX, minY, maxY] = [Infinity, -Infinity, Infinity, -Infinity];
	for (const { xs, ys, darks, left, top, right, bottom } of components) {
		const own = { left, top, right, bottom };
		if (!(meets(target, own, ON_LINE_PX) || meets(name, own, 0) || (writeIn && meets(writeIn, own, 0)))) continue;
		for (let i = 0; i < xs.length; i++) {
			const x = xs[i] as number;
			const y = ys[i] as number;
			if (x >= target.left && x < target.right && y >= target.top && y < target.bottom) {
				all += 1;
				if (darks[i] !== 0) inTarget += 1;
				minX = Math.min(minX, x);
				maxX = Math.max(maxX, x);
				minY = Math.min(minY, y);
				maxY = Math.max(maxY, y);
			}
			if (darks[i] === 0) continue;
			if (
				x >= target.left - ON_LINE_PX &&
				x < target.right + ON_LINE_PX &&
				y >= target.top - ON_LINE_PX &&
				y < target.bottom + ON_LINE_PX
			)
				onTarget += 1;
			if (x >= name.left && x < name.right && y >= name.top && y < name.bottom) inName += 1;
			if (writeIn && x >= writeIn.left && x < writeIn.right && y >= writeIn.top && y < writeIn.bottom) inWriteIn += 1;
		}
	}
	const width = target.right - target.left;
	const height = target.bottom - target.top;
	return {
		choice,
		target,
		name,
		...(writeIn ? { writeIn } : {}),
		inTarget,
		onTarget,
		inName,
		inWriteIn,
		acrossTarget: all === 0 ? 0 : Math.max((maxX - minX + 1) / width, (maxY - minY + 1) / height),
		bothAcross: all === 0 ? 0 : Math.min((maxX - minX + 1) / width, (maxY - minY + 1) / height),
		targetShare: all / (width * height),
		holdsTarget: holds(box, (target.left + target.right) / 2, (target.top + target.bottom) / 2),
		holdsName: holds(box, (name.left + name.right) / 2, (name.top + name.bottom) / 2)
	};
}

/** A box in points as pixels. */
export function edgesOf({ x, y, width, height }: Box): Edges {
	return {
		left: Math.round(x * PX_PER_PT),
		top: Math.round(y * PX_PER_PT),
		right: Math.round((x + width) * PX_PER_PT),
		bottom: Math.round((y + height) * PX_PER_PT)
	};
}

/** Whether two boxes are at most `apart` pixels from each other, each way. */
export function meets(a: Edges, b: Edges, apart: number): boolean {
	return a.left - apart < b.right && b.left - apart < a.right && a.top - apart < b.bottom && b.top - apart < a.bottom;
}

export function holds({ left, top, right, bottom }: Edges, x: number, y: number): boolean {
	return x >= left && x < right && y >= top && y < bottom;
}
