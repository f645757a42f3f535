import { answers } from './verbs/answers';
import { check } from './verbs/check';
import { deck } from './verbs/deck';
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
	sheet,
	deck
};

const USAGE = `usage: fairhand VERB [options]

  layout [--election FILE] [--style ID] [--languages en,es] [--large]
      where everything is on the ballot's pages, in points
  read FILE... [--election FILE] [--style ID] [--languages en,es] [--large] [--rulebook ID|FILE]
       [--format record|codes|cvr] [--out FILE [--resume]] [--workers N]
      one JSON line for each ink file or photo (JPEG, PNG) of a practice sheet: marks, readings, advice;
      --format codes, for an event's stack: mistake codes and their tally, never a choice; --format cvr:
      a NIST SP 1500-103 report for each; --resume goes on with the FILE that an interrupted run left
  check FILE
      one JSON line for each problem of an election file
  rulebooks
      the rulebooks that are there
  answers QUERY [--lang TAG] [--on DATE] [--election FILE]
      one JSON line for each answer that fits a caller's words, best first
  sheet [--election FILE] [--style ID] [--page N] [--languages en,es] [--large] [--paper letter|a4]
        [--colour tint|grey] [--format svg|pdf] [--out FILE]
      one page of a practice sheet, ready to print; --large: 18 pt and more
  sheet --stack DIR [--style ID] [--languages en,es] [--large] …
      every style in every language: a file for each page, or as PDF one with all pages of each
  deck --out DIR [--election FILE] [--style ID] [--languages en,es] [--large] [--paper letter|a4]
       [--format svg|pdf]
      sheets with known marks, and expected.json with what they were drawn as
  deck --compare EXPECTED READINGS
      what "read" made of a deck's sheets beside what was drawn: a check of this reader, not a logic and
      accuracy test of voting equipment; 1 when a mark was read as none, or none as a mark

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
