import type { BallotStyle, Choice, Contest, Election } from './election';

/** What one voter gets: a ballot style and its contests, in ballot order, their choices as printed. */
export interface Ballot {
	readonly style: BallotStyle;
	readonly contests: readonly Contest[];
}

/**
 * The contests of one ballot style in its order, with the choices rotated as this style prints them: moved up by
 * the style's number of places, write-in lines always last. Throws a RangeError for a style that the election does
 * not have and for a contest that its file does not hold.
 */
export function ballotOf(election: Election, styleId: string): Ballot {
	const style = election.styles.find(({ id }) => id === styleId);
	if (!style) {
		const known = election.styles.map(({ id }) => id).join(', ');
		throw new RangeError(`ballotOf: expected a style of election ${election.id} (${known}), got "${styleId}"`);
	}
	const byId = new Map(election.contests.map((contest) => [contest.id, contest]));
	const contests = style.contests.map((id) => {
		const contest = byId.get(id);
		if (!contest)
			throw new RangeError(
				`ballotOf: style ${styleId} names contest "${id}", which the file does not hold; check the file first`
			);
		return { ...contest, choices: rotate(contest.choices, placesOf(style, id)) };
	});
	return { style, contests };
}

/** How far a contest is rotated on a style. Own fields only: a contest may be called "constructor". */
const placesOf = ({ rotation }: BallotStyle, contest: string): number =>
	rotation && Object.hasOwn(rotation, contest) ? (rotation[contest] ?? 0) : 0;

function rotate(choices: readonly Choice[], places: number): readonly Choice[] {
	const listed = choices.filter(({ kind }) => kind !== 'write-in');
	const writeIns = choices.filter(({ kind }) => kind === 'write-in');
	const first = listed.length === 0 ? 0 : places % listed.length;
	return [...listed.slice(first), ...listed.slice(0, first), ...writeIns];
}
