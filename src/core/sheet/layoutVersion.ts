import type { Layout } from '../layout/layout';

/**
 * A short name for exactly this layout: another when any printed line, rule or target is elsewhere or says
 * something else, so that a sheet printed before a change is never read by the layout after it.
 */
export function layoutVersion({ shape, side, pages }: Layout): string {
	const printed = pages.map(({ texts, rules, choices }) => [
		texts.map(({ text, x, y, sizePt }) => [text, thousandths(x), thousandths(y), thousandths(sizePt)]),
		rules.map(({ x1, y1, x2, y2, widthPt }) => [x1, y1, x2, y2, widthPt].map(thousandths)),
		choices.map(({ contest, choice, rank, target: { x, y, width, height } }) => [
			contest,
			choice,
			rank ?? 0,
			...[x, y, width, height].map(thousandths)
		])
	]);
	return hash(JSON.stringify([shape, side, printed]))
		.toString(36)
		.toUpperCase();
}

/** Free of the last digits of a sum, which no printer shows. */
const thousandths = (value: number): number => Math.round(value * 1000);

/** 32-bit FNV-1a (Fowler, Noll, Vo; draft-eastlake-fnv), over UTF-16 units: tells layouts apart, protects nothing. */
function hash(text: string): number {
	let value = 0x811c9dc5;
	for (let i = 0; i < text.length; i++) value = Math.imul(value ^ text.charCodeAt(i), 0x01000193);
	return value >>> 0;
}
