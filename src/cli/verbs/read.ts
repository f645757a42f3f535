import { availableParallelism } from 'node:os';
import { fileOutput, standardOutput } from '../batch/output';
import { Progress } from '../batch/progress';
import { readFiles } from '../batch/readFiles';
import { leftIn, stillToRead } from '../batch/resume';
import { CodeTally, type ReadLine } from '../batch/tally';
import { BadUsage } from '../failures';
import { FileReader, type ReadSettings } from '../fileReader';
import { oneOf, optionsOf } from '../options';

const OPTIONS = ['election', 'style', 'languages', 'rulebook', 'format', 'out', 'workers'] as const;

/** Fewer files are read sooner by this thread than others start. */
const LEAST_FOR_WORKERS = 8;

/** More threads than this wait for the disk and fill memory with photos. */
const MOST_WORKERS = 16;

/**
 * `read FILE...`: one line for each file, in the order given; a bad file is one line and the rest go on. With
 * `--format codes` mistake codes and at the end their tally, never a choice.
 */
export async function read(args: readonly string[]): Promise<number> {
	const { files, values, flags } = optionsOf(args, OPTIONS, ['large', 'resume']);
	if (files.length === 0) throw new BadUsage('read: expected at least one FILE, got none');
	const { election, style, languages, rulebook, out } = values;
	if (flags.has('resume') && out === undefined)
		throw new BadUsage('read: expected --out FILE with --resume, got none; the lines in it say what is done');
	const settings: ReadSettings = {
		election,
		style,
		languages,
		rulebook,
		printSize: flags.has('large') ? 'large' : 'ordinary',
		format: oneOf('read', 'format', values['format'] ?? 'record', ['record', 'codes', 'cvr'])
	};
	const workers = workersOf(values['workers'], files.length);
	const reader = new FileReader(settings);
	const tally = new CodeTally();
	let refusals = 0;
	const note = (line: ReadLine): void => {
		if (line.refused !== undefined) refusals += 1;
		tally.add(line);
	};
	const left = flags.has('resume') && out !== undefined ? await leftIn(out, settings.format, note) : undefined;
	const todo = left ? stillToRead(files, left) : files;
	const progress = new Progress(files.length, files.length - todo.length);
	const output = out === undefined ? standardOutput : fileOutput(out, left?.keptBytes);
	try {
		for await (const { file, line, refused } of readFiles(todo, reader, workers)) {
			await output.write(line);
			if (refused !== undefined) process.stderr.write(`fairhand: ${file}: ${refused}\n`);
			// Only lines of codes are short enough to be gone through again.
			note(settings.format === 'codes' ? (JSON.parse(line) as ReadLine) : { refused });
			progress.step(refused !== undefined);
		}
		if (settings.format === 'codes') await output.write(JSON.stringify({ summary: tally.summary() }));
	} finally {
		output.close();
	}
	progress.end();
	return refusals > 0 ? 1 : 0;
}

function workersOf(value: string | undefined, files: number): number {
	if (value === undefined) return files < LEAST_FOR_WORKERS ? 0 : Math.min(availableParallelism(), MOST_WORKERS);
	const workers = Number(value);
	if (!/^\d+$/.test(value) || workers > MOST_WORKERS)
		throw new BadUsage(`read: expected --workers from 0 to ${MOST_WORKERS}, got "${value}"`);
	return workers;
}
