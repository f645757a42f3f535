import { county } from '$core/election/demo';
import type { Contest, Election, Text } from '$core/election/election';
import type { Layout } from '$core/layout/layout';
import { layOut } from '$core/layout/layOutBallot';
import type { SheetWords } from '$core/layout/words';
import type { PageMarks } from '$core/marks/mark';
import { printPage } from '$core/page/printPage';
import { PICTURES, type SheetId } from './pictures';
import { readPicture } from './readPicture';

const same = (name: string): Text => ({ en: name, es: name });
const candidate = (id: string, name: string) => ({ id, kind: 'candidate', name: same(name) }) as const;

const CONTESTS: readonly Contest[] = [
	{
		id: 'clerk',
		kind: 'candidates',
		title: { en: 'Harbor Clerk', es: 'Secretaría del puerto' },
		voteFor: 1,
		choices: [
			candidate('A', 'Ada Larkwether'),
			candidate('B', 'Bruno Tessarel'),
			candidate('C', 'Cleo Fernhallow'),
			{ id: 'W', kind: 'write-in', name: { en: 'or write a name:', es: 'o escriba un nombre:' } }
		]
	},
	{
		id: 'lantern-warden',
		kind: 'candidates',
		title: { en: 'Bridge Warden, Lantern Party', es: 'Encargado de puentes, Partido del Farol' },
		voteFor: 1,
		party: 'lantern',
		choices: [candidate('D', 'Dora Quillhaven'), candidate('E', 'Emil Brackenrow')]
	},
	{
		id: 'orchard-warden',
		kind: 'candidates',
		title: { en: 'Bridge Warden, Orchard Party', es: 'Encargado de puentes, Partido del Huerto' },
		voteFor: 1,
		party: 'orchard',
		choices: [candidate('F', 'Fay Ottermoor'), candidate('G', 'Gus Wickenlow')]
	}
];

/** The demo county's ballot with nothing on it but the contests of the pictures: made-up names throughout. */
export const pictureElection: Election = {
	...county,
	answers: [],
	passages: [],
	dates: [],
	// No fold to keep clear of: every contest stands as close as it can.
	page: { ...county.page, foldsAt: [] },
	contests: CONTESTS,
	styles: [
		{ id: 'one', name: same('1'), precincts: [], contests: ['clerk'] },
		{ id: 'parties', name: same('2'), precincts: [], contests: ['lantern-warden', 'orchard-warden'] }
	]
};

export interface PictureSheets {
	readonly layouts: Readonly<Record<SheetId, Layout>>;
	/** By picture: what the reader found on it. */
	readonly found: Readonly<Record<string, PageMarks>>;
}

/** The sheets of the pictures in one language, and what is found on every picture. */
export function pictureSheets(lang: string, words: SheetWords): PictureSheets {
	const sheetOf = (style: SheetId): Layout => layOut(pictureElection, style, { [lang]: words }, [lang]);
	const layouts = { one: sheetOf('one'), parties: sheetOf('parties') };
	const prints = { one: printPage(layouts.one, 1), parties: printPage(layouts.parties, 1) };
	return {
		layouts,
		found: Object.fromEntries(
			PICTURES.map((picture) => {
				const { id, sheet } = picture;
				return [id, readPicture(picture, pictureElection, layouts[sheet], prints[sheet])];
			})
		)
	};
}
