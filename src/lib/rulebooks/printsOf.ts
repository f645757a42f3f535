import { drawPage } from '$core/layout/draw';
import type { Layout } from '$core/layout/layout';
import { unframed } from '$core/layout/unframed';
import type { Print } from '$lib/paper/Prints.svelte';
import { printId, type SheetId } from './pictures';

/** What is printed on the sheets of the pictures. */
export const printsOf = (layouts: Readonly<Record<SheetId, Layout>>): readonly Print[] =>
	(['one', 'parties'] as const).map((id) => ({
		id: printId(id),
		svg: unframed(drawPage(layouts[id], 1, { withoutPaper: true })),
		lang: layouts[id].languages[0]
	}));
