import { rulebookIds, rulebookOf } from '../files';
import { BadUsage } from '../failures';
import { optionsOf } from '../options';
import { print } from '../print';

/** `rulebooks`: the rulebooks that are there, as one JSON list. */
export function rulebooks(args: readonly string[]): number {
	const { files } = optionsOf(args, []);
	if (files.length > 0) throw new BadUsage(`rulebooks: expected no file, got ${files.length}`);
	print(
		rulebookIds().map((id) => {
			const { clauses, outOfScope, ...about } = rulebookOf(id);
			return { ...about, clauses: clauses.length, outOfScope: outOfScope.length };
		})
	);
	return 0;
}
