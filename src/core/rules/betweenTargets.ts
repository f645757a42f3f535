import type { Box } from '../geometry';
import type { Layout } from '../layout/layout';
import type { Mark } from '../marks/mark';

/**
 * A mark in the blank between two targets, one below the other, that lies on the line half-way between them stands
 * for neither more than for the other: it takes in both choices, though the reader gives it to the nearer one.
 */
export function takesInBoth(mark: Mark, layout: Layout): Mark {
	if (mark.place !== 'beside-target') return mark;
	const { page, contest, choice, box, alsoTouches = [] } = mark;
	const rows = layout.pages.find((one) => one.page === page)?.choices.filter((row) => row.contest === contest) ?? [];
	const own = rows.filter((row) => row.choice === choice);
	const others = rows.filter(
		({ choice: other, target }) => other !== choice && own.some((row) => isBetween(box, row.target, target))
	);
	const touched = [...new Set([...alsoTouches, ...others.map((row) => row.choice)])];
	return touched.length === alsoTouches.length ? mark : { ...mark, alsoTouches: touched };
}

/** Touches neither, lies in the column of both and on the line half-way. No distance is set: the two targets are the measure. */
function isBetween(box: Box, one: Box, two: Box): boolean {
	const [upper, lower] = one.y < two.y ? [one, two] : [two, one];
	const halfWay = (bottomOf(upper) + lower.y) / 2;
	const isInBlank = box.y > bottomOf(upper) && bottomOf(box) < lower.y;
	return isInBlank && box.y < halfWay && bottomOf(box) > halfWay && isInColumn(box, one) && isInColumn(box, two);
}

const bottomOf = ({ y, height }: Box): number => y + height;
const isInColumn = (box: Box, { x, width }: Box): boolean => box.x < x + width && box.x + box.width > x;
