import type { PageMarks } from './mark';

/**
 * Gives the marks of a ballot their ids: "m1", "m2", … by page, then top to bottom, then left to right.
 * Returns new pages, in page order.
 */
export function numberMarks(pages: readonly PageMarks[]): readonly PageMarks[] {
	let last = 0;
	return [...pages]
		.sort((a, b) => a.page - b.page)
		.map((page) => ({
			...page,
			marks: [...page.marks]
				.sort((a, b) => a.box.y - b.box.y || a.box.x - b.box.x)
				.map((mark) => {
					last += 1;
					return { ...mark, id: `m${last}` };
				})
		}));
}
