import type { Contest } from '../election/election';
import type { ContestReading } from '../reading/statement';
import type { Sentence } from './sentence';

/** The machine's line of a note, in whole sentences: keys of `reading.machine.` */
export function machineSays({ machine, advice }: ContestReading, contest: Contest): readonly Sentence[] {
	const { state, votes, targets } = machine;
	const levelled = (level: string): readonly string[] => [
		...new Set(targets.filter((target) => target.level === level).map(({ choice }) => choice))
	];
	const said: Sentence[] = [];
	if (state === 'overvote')
		said.push({ key: 'overvote', values: { marked: levelled('dark').length, count: contest.voteFor } });
	else if (votes.length > 0) said.push({ key: 'read', values: { choices: votes } });
	const unsure = levelled('unsure');
	if (unsure.length > 0) said.push({ key: 'unsure', values: { choices: unsure } });
	const pressing = advice.filter(({ tone, stage }) => tone === 'look' && stage !== 'mailed');
	const seen = new Set([...levelled('dark'), ...unsure]);
	const missedBy = (isFaint: boolean): readonly string[] => [
		...new Set(
			pressing.flatMap(({ key, choice }) =>
				choice !== undefined && !seen.has(choice) && (key === 'faint') === isFaint ? [choice] : []
			)
		)
	];
	const [faint, missed] = [missedBy(true), missedBy(false)];
	if (faint.length > 0) said.push({ key: 'faint', values: { choices: faint } });
	for (const choice of missed) said.push({ key: 'missed', values: { choice } });
	return said.length > 0 ? said : [{ key: 'blank', values: {} }];
}
