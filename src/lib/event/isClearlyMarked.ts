import { headline } from '$core/advice/headline';
import type { Contest } from '$core/election/election';
import type { BallotStatement, ContestReading } from '$core/reading/statement';

/** Whether something was marked and nothing on the sheet asks for a second look. Contests may be left blank. */
export function isClearlyMarked(
	contests: readonly Contest[],
	readings: ReadonlyMap<string, ContestReading>,
	sheet: Pick<BallotStatement, 'outcome'> | undefined
): boolean {
	const isCalm = contests.every((contest) => {
		const reading = readings.get(contest.id);
		return reading !== undefined && headline(reading, contest).tone === 'calm';
	});
	const isMarked = [...readings.values()].some(({ machine }) => machine.votes.length > 0);
	return isCalm && isMarked && (sheet === undefined || ['none', 'silent'].includes(sheet.outcome));
}
