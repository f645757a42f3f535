import { ballotOf } from '$core/election/ballot';
import type { Election } from '$core/election/election';
import { grow, overlaps, type Box } from '$core/geometry';
import { widthOf } from '$core/layout/font/measure';
import { CAP_HEIGHT } from '$core/layout/font/metrics';
import type { ChoiceLayout, Layout, PageLayout, TextLine } from '$core/layout/layout';
import { reachOf } from '$core/layout/targetOutline';

/** Distances that must hold between things on a sheet, in points. Written down here, not taken from the code under test. */
const MARGIN = 36;
const FROM_FOLD = 6;
const FROM_PRACTICE = 6;
const NOISE = 1e-6;

/** Everything in `layout` that breaks a rule of the printed sheet, one line each. */
export function problemsOf(layout: Layout, election: Election): string[] {
	return [...completeness(layout, election), ...layout.pages.flatMap((page) => pageProblems(layout, page))];
}

function completeness(layout: Layout, election: Election): string[] {
	const { contests } = ballotOf(election, layout.style);
	const expected = contests.flatMap((contest) => {
		const ranks = contest.kind === 'ranked' ? (contest.ranks ?? contest.choices.length) : undefined;
		return contest.choices.flatMap(({ id }) =>
			ranks === undefined
				? [`${contest.id}/${id}`]
				: Array.from({ length: ranks }, (_, i) => `${contest.id}/${id}/${i + 1}`)
		);
	});
	const printed = layout.pages.flatMap(({ choices }) =>
		choices.map(({ contest, choice, rank }) => `${contest}/${choice}${rank === undefined ? '' : `/${rank}`}`)
	);
	const order = layout.pages.flatMap((page) => page.contests.map(({ contest }) => contest));
	return [
		...(printed.join() === expected.join() ? [] : [`choices: expected ${expected.join()}, got ${printed.join()}`]),
		...(order.join() === contests.map(({ id }) => id).join() ? [] : [`contests: got ${order.join()}`]),
		...layout.pages.flatMap(({ page }, i) => (page === i + 1 ? [] : [`page ${page} stands at ${i + 1}`]))
	];
}

function pageProblems(layout: Layout, page: PageLayout): string[] {
	const problems: string[] = [];
	const say = (what: string) => problems.push(`page ${page.page}: ${what}`);
	const { choices, contests, texts, rules } = page;
	const inside = { x: MARGIN, y: 30, width: page.widthPt - 2 * MARGIN, height: page.heightPt - 30 - 28 };
	const textBoxes = texts.map(boxOf);
	const practice = texts.filter(({ role }) => role === 'practice').map(boxOf);

	for (const { contest, box, heading } of contests) {
		if (!holds(inside, box)) say(`${contest} outside the margins`);
		if (!holds(box, heading)) say(`${contest}: heading outside its box`);
		for (const choice of choices.filter((c) => c.contest === contest))
			if (!holds(box, choice.row)) say(`${contest}/${choice.choice}: row outside its contest`);
		const band = texts.filter(({ role, x, y }) => role === 'practice' && holds(box, { x, y, width: 0, height: 0 }));
		if (band.length === 0) say(`${contest}: no practice band`);
	}
	for (const [a, b] of pairs(contests)) if (overlaps(a.box, b.box)) say(`${a.contest} overlaps ${b.contest}`);

	for (const choice of choices) {
		const { target, name, row, writeIn } = choice;
		const what = `${choice.contest}/${choice.choice}`;
		for (const [side, length] of Object.entries(target))
			if (Math.abs(length / 0.36 - Math.round(length / 0.36)) > NOISE) say(`${what}: ${side} ${length} off the grid`);
		for (const part of [target, name, ...(writeIn ? [writeIn] : [])]) {
			if (!holds(row, part)) say(`${what}: a part outside its row`);
			for (const fold of page.foldsPt)
				if (part.y - FROM_FOLD < fold - NOISE && part.y + part.height + FROM_FOLD > fold + NOISE)
					say(`${what}: ${part.y} to ${part.y + part.height} crosses the fold at ${fold}`);
			if (practice.some((words) => overlaps(grow(words, FROM_PRACTICE - NOISE), part)))
				say(`${what}: PRACTICE within ${FROM_PRACTICE} pt`);
		}
		const printed = printedTarget(layout, target);
		if (overlaps(printed, name)) say(`${what}: target on its name`);
		if (writeIn) {
			if (writeIn.width < 100 || writeIn.height < 18) say(`${what}: no room to write`);
			if (overlaps(printed, writeIn) || overlaps(name, writeIn)) say(`${what}: writing on target or name`);
			const bottom = writeIn.y + writeIn.height;
			const line = rules.find(
				({ role, x1, x2, y1 }) => role === 'write-in' && x1 === writeIn.x && y1 === bottom && x2 > x1
			);
			if (!line) say(`${what}: no line to write on`);
		}
		for (const [i, box] of textBoxes.entries()) {
			if (overlaps(box, printed)) say(`${what}: target on "${texts[i]!.text}"`);
			if (writeIn && overlaps(box, writeIn)) say(`${what}: writing on "${texts[i]!.text}"`);
		}
		if (choice.rank === undefined || choice.rank === 1) {
			const first = texts.find(({ x, y }) => holds(name, { x, y, width: 0, height: 0 }));
			if (!first) say(`${what}: no printed name`);
			else if (choice.rank === undefined) {
				const middle = first.y - (first.sizePt * CAP_HEIGHT) / 2000;
				if (Math.abs(middle - target.y - target.height / 2) > NOISE) say(`${what}: target not beside its first line`);
			}
		}
	}
	for (const [a, b] of pairs(choices)) {
		const what = `${a.contest}/${a.choice} and ${b.contest}/${b.choice}`;
		if (overlaps(printedTarget(layout, a.target), printedTarget(layout, b.target))) say(`${what}: targets overlap`);
		if (sameChoice(a, b)) continue;
		if (overlaps(a.row, b.row)) say(`${what}: rows overlap`);
		if (Math.abs(a.target.y - b.target.y) < 22 - NOISE && sameColumn(a, b)) say(`${what}: rows too close`);
	}
	for (const { contest, heading } of contests)
		for (const { row, choice } of choices)
			if (overlaps(heading, row)) say(`heading of ${contest} on the row of ${choice}`);
	for (const [a, b] of pairs(texts.map((text, i) => ({ text: text.text, box: textBoxes[i]! }))))
		if (overlaps(grow(a.box, -NOISE), b.box)) say(`"${a.text}" on "${b.text}"`);
	for (const [i, box] of textBoxes.entries()) {
		const { text } = texts[i]!;
		if (!holds(inside, box)) say(`"${text}" outside the margins`);
		const around = contests.find((c) => holds(c.box, { x: box.x, y: box.y + box.height / 2, width: 0, height: 0 }));
		if (around && !holds(around.box, box)) say(`"${text}" outside the column of ${around.contest}`);
	}
	return problems;
}

const sameChoice = (a: ChoiceLayout, b: ChoiceLayout) => a.contest === b.contest && a.choice === b.choice;

const sameColumn = (a: ChoiceLayout, b: ChoiceLayout) => Math.abs(a.row.x - b.row.x) < 100;

function printedTarget({ shape, side }: Layout, target: Box): Box {
	const { outwardPt, inwardPt } = reachOf(shape);
	return {
		...target,
		x: target.x - (side === 'left' ? outwardPt : inwardPt),
		width: target.width + outwardPt + inwardPt
	};
}

function boxOf({ text, x, y, sizePt, weight, spacingPt }: TextLine): Box {
	const width = widthOf(text, weight, sizePt, spacingPt) - spacingPt;
	return { x, y: y - 0.9 * sizePt, width, height: 1.14 * sizePt };
}

function holds(outer: Box, inner: Box): boolean {
	return (
		inner.x >= outer.x - NOISE &&
		inner.y >= outer.y - NOISE &&
		inner.x + inner.width <= outer.x + outer.width + NOISE &&
		inner.y + inner.height <= outer.y + outer.height + NOISE
	);
}

function* pairs<T>(items: readonly T[]): Generator<readonly [T, T]> {
	for (const [i, a] of items.entries()) for (const b of items.slice(i + 1)) yield [a, b];
}
