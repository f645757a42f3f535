import type { Contest } from '$core/election/election';
import { textIn } from '$core/election/text';

/** The printed title of a contest; where two on the ballot share it (a primary's two parties), with its second line. */
export function titleOf(contest: Contest, contests: readonly Contest[], lang: string): string {
	const title = textIn(contest.title, lang);
	const alike = contests.some((other) => other !== contest && textIn(other.title, lang) === title);
	return alike && contest.subtitle ? `${title}, ${textIn(contest.subtitle, lang)}` : title;
}
