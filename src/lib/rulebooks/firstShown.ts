import { groupAlike, oneOfEach, type RulebookVerdict } from '$core/rules/compareRulebooks';

/** More than these side by side are too many to begin with. */
const MOST = 3;

/** Ids of the rulebooks shown while nobody has chosen: the one in use beside one of each other answer. */
export function firstShown(verdicts: readonly RulebookVerdict[], inUse: string): readonly string[] {
	const each = oneOfEach(groupAlike(verdicts), [inUse]).map(({ id }) => id);
	return [inUse, ...each.filter((id) => id !== inUse)].slice(0, MOST);
}
