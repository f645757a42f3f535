import { contains } from '$core/geometry';
import type { Layout } from '$core/layout/layout';

/** The line of a contest that says how many to choose, as it is printed in `lang`. */
export function instructionOf(layout: Layout, contest: string, lang: string): string {
	for (const { contests, texts } of layout.pages) {
		const found = contests.find((c) => c.contest === contest);
		if (!found) continue;
		return texts
			.filter((line) => line.role === 'instruction' && line.language === lang && contains(found.heading, line))
			.map(({ text }) => text)
			.join(' ');
	}
	return '';
}
