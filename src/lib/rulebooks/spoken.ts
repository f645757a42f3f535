import type { Mark } from '$core/marks/mark';
import type { Told } from '$core/rules/facts';
import type { Saying } from '$core/rules/vocabulary';
import { isHandwriting } from './pictures';

/** What a person has said a piece of handwriting is; of a printed name also whose. */
export interface Spoken {
	readonly says: Saying;
	readonly choice?: string;
}

/** By where the handwriting stands: marks are numbered anew with every new one, so their ids do not last. */
export type SpokenByPlace = ReadonlyMap<string, Spoken>;

/** Handwriting that was found, each piece with a name for where it stands. */
export function handwritingIn(marks: readonly Mark[]): readonly { readonly place: string; readonly mark: Mark }[] {
	const before = new Map<string, number>();
	return marks.filter(isHandwriting).map((mark) => {
		const at = `${mark.place}/${mark.choice ?? ''}`;
		const number = (before.get(at) ?? 0) + 1;
		before.set(at, number);
		return { place: `${at}/${number}`, mark };
	});
}

/** What a person has said, for the marks as they are numbered now. */
export function toldBy(spoken: SpokenByPlace, marks: readonly Mark[]): Told {
	const words = handwritingIn(marks).flatMap(({ place, mark }) => {
		const said = spoken.get(place);
		return said ? [[mark.id, said] as const] : [];
	});
	return words.length > 0 ? { words: new Map(words) } : {};
}
