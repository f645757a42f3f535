import type { Contest } from '$core/election/election';
import type { MachineStatement } from '$core/reading/statement';
import type { Words } from '$lib/notes/words';

/** What a machine would likely see, in a sentence or two. It is the same whatever rule people go by. */
export function sayMachine(machine: MachineStatement | undefined, { voteFor }: Contest, words: Words): string {
	if (!machine) return '';
	const levelled = (level: string): readonly string[] =>
		machine.targets.filter((target) => target.level === level).map(({ choice }) => choice);
	const said: string[] = [];
	if (machine.state === 'overvote')
		said.push(
			words.say('reading.machine', { key: 'overvote', values: { marked: levelled('dark').length, count: voteFor } })
		);
	else if (machine.votes.length > 0)
		said.push(words.say('reading.machine', { key: 'read', values: { choices: machine.votes } }));
	const unsure = levelled('unsure');
	if (unsure.length > 0) said.push(words.say('reading.machine', { key: 'unsure', values: { choices: unsure } }));
	return said.length > 0 ? said.join(' ') : words.say('reading.machine', { key: 'blank', values: {} });
}
