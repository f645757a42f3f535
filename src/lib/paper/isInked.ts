import { contains } from '$core/geometry';
import type { PageInk } from '$core/ink/stroke';
import type { Layout } from '$core/layout/layout';

/**
 * Whether there is ink in the target of a choice: what anyone can see on the paper, and no reading. Ink
 * that an eraser went over afterwards is taken as gone.
 */
export function isInked(layout: Layout, pages: readonly PageInk[], contest: string, choice: string): boolean {
	for (const page of layout.pages) {
		const found = page.choices.find((c) => c.contest === contest && c.choice === choice);
		if (!found) continue;
		const ink = pages.find((p) => p.page === page.page);
		const over = ink?.strokes.filter(({ points }) => points.some(([x, y]) => contains(found.target, { x, y }))) ?? [];
		return over.length > 0 && over.at(-1)?.tool !== 'eraser';
	}
	return false;
}
