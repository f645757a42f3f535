import { parseElection } from '../../core/election/parseElection';
import { languageTags, rulebookIds, textOf } from '../files';
import { BadUsage } from '../failures';
import { optionsOf } from '../options';
import { print } from '../print';

/** `check FILE`: a line for each problem; 1 if any is an error, 0 if the file is only not fit to publish yet. */
export function check(args: readonly string[]): number {
	const { files } = optionsOf(args, []);
	const [file] = files;
	if (file === undefined || files.length > 1) throw new BadUsage(`check: expected one FILE, got ${files.length}`);
	const { problems } = parseElection(textOf(file), { languages: languageTags(), rulebooks: rulebookIds() });
	for (const { path, expected, received, severity, message } of problems)
		print({ path, expected, received, severity, message });
	return problems.some((problem) => problem.severity === 'error') ? 1 : 0;
}
