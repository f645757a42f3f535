import { encodeCode } from '../../codes/encodeCode';
import type { Election } from '$core/election/election';
import type { PrintSize } from '$core/layout/layout';
import { layOut } from '$core/layout/layOutBallot';
import type { PrintedWords } from '$core/layout/words';
import { drawSheet, type Paper } from '$core/sheet/drawSheet';

/** What is to be printed. */
export interface StackWish {
	readonly election: Election;
	/** Ids of ballot styles, and for each sheet the languages on it, main one first: every style in every set. */
	readonly styles: readonly string[];
	readonly languages: readonly (readonly string[])[];
	readonly words: PrintedWords;
	readonly paper: Paper;
	readonly blackAndWhite: boolean;
	readonly printSize: PrintSize;
}

/** One page, ready to print. */
export interface PrintedPage {
	readonly style: string;
	readonly languages: readonly string[];
	readonly page: number;
	readonly pages: number;
	readonly svg: string;
}

/** The pages of a stack: one ballot after another, so that it can be cut into sets as it comes from the printer. */
export function drawStack(wish: StackWish): readonly PrintedPage[] {
	const { election, styles, languages, words, paper, blackAndWhite, printSize } = wish;
	return styles.flatMap((style) =>
		languages.flatMap((tags) => {
			const layout = layOut(election, style, words, tags, printSize);
			return layout.pages.map(({ page }) => ({
				style,
				languages: tags,
				page,
				pages: layout.pages.length,
				svg: drawSheet(layout, page, encodeCode, { paper, blackAndWhite })
			}));
		})
	);
}
