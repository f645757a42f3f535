import { parseArgs, type ParseArgsConfig } from 'node:util';
import { BadUsage } from './failures';

/** Options of a verb: each takes a value. */
export interface Options {
	readonly files: readonly string[];
	readonly values: Readonly<Record<string, string | undefined>>;
}

/** Reads the arguments of a verb. Throws BadUsage for an option that is not in `known`. */
export function optionsOf(args: readonly string[], known: readonly string[]): Options {
	const options: NonNullable<ParseArgsConfig['options']> = Object.fromEntries(
		known.map((name) => [name, { type: 'string' }])
	);
	try {
		const { values, positionals } = parseArgs({ args: [...args], options, allowPositionals: true, strict: true });
		return { files: positionals, values: values as Record<string, string | undefined> };
	} catch (error) {
		throw new BadUsage(error instanceof Error ? error.message.split('. ')[0] : String(error));
	}
}
