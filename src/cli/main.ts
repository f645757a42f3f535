import { answers } from './verbs/answers';
import { check } from './verbs/check';
import { layout } from './verbs/layout';
import { read } from './verbs/read';
import { rulebooks } from './verbs/rulebooks';
import { sheet } from './verbs/sheet';
import { BadInput, BadUsage } from './failures';

/**
 * The command line: the same core as the app, for staff, tests and batch work. JSON on standard output;
 * what could not be done on standard error. Exit code 0: done; 1: bad input; 2: bad usage.
 */
const VERBS: Readonly<Record<string, (args: readonly string[]) => number | Promise<number>>> = {
	layout,
	read,
	check,
	rulebooks,
	answers,
	sheet
};

const USAGE = `usage: fairhand VERB [options]

  layout [--election FILE] [--style ID] [--languages en,es]
      where everything is on the ballot's pages, in points
  read FILE... [--election FILE] [--style ID] [--rulebook ID|FILE]
      one JSON line for each ink file or photo (JPEG, PNG) of a practice sheet: marks, readings, advice
  check FILE
      one JSON line for each problem of an election file
  rulebooks
      the rulebooks that are there
  answers QUERY [--lang TAG] [--on DATE] [--election FILE]
      one JSON line for each answer that fits a caller's words, best first
  sheet [--election FILE] [--style ID] [--page N] [--languages en,es] [--paper letter|a4]
        [--colour tint|grey] [--format svg|pdf] [--out FILE]
      one page of a practice sheet, ready to print

Without --election, the demo county's file is used; without --style, its first style; without
--rulebook, the election's own.`;

async function main(args: readonly string[]): Promise<number> {
	const [name, ...rest] = args;
	if (name === undefined || name === 'help' || name === '--help') {
		process.stdout.write(`${USAGE}\n`);
		return name === undefined ? 2 : 0;
	}
	const verb = Object.hasOwn(VERBS, name) ? VERBS[name] : undefined;
	if (!verb) throw new BadUsage(`expected a verb (${Object.keys(VERBS).join(', ')}), got "${name}"`);
	return verb(rest);
}

// A reader that closes early (`| head`) is no failure of ours.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
	if (error.code === 'EPIPE') process.exit(0);
	throw error;
});

try {
	process.exitCode = await main(process.argv.slice(2));
} catch (error) {
	if (error instanceof BadUsage) {
		process.stderr.write(`fairhand: ${error.message}; see "fairhand help"\n`);
		process.exitCode = 2;
	} else if (error instanceof BadInput) {
		for (const line of error.lines) process.stderr.write(`fairhand: ${line}\n`);
		process.exitCode = 1;
	} else throw error;
}
