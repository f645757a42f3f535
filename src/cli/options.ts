import { parseArgs, type ParseArgsConfig } from 'node:util';
import { BadUsage } from './failures';

/** Options of a verb. */
export interface Options {
	readonly files: readonly string[];
	readonly values: Readonly<Record<string, string | undefined>>;
	/** Names of the options without a value that were given. */
	readonly flags: ReadonlySet<string>;
}

/**
 * Reads the arguments of a verb: options named in `known` take a value, those in `flags` none. Throws BadUsage for any
 * other.
 */
export function optionsOf(args: readonly string[], known: readonly string[], flags: readonly string[] = []): Options {
	const options: NonNullable<ParseArgsConfig['options']> = {};
	for (const name of known) options[name] = { type: 'string' };
	for (const name of flags) options[name] = { type: 'boolean' };
	try {
		const { values, positionals } = parseArgs({ args: [...args], options, allowPositionals: true, strict: true });
		const entries = Object.entries(values);
		return {
			files: positionals,
			values: Object.fromEntries(entries.filter((entry): entry is [string, string] => typeof entry[1] === 'string')),
			flags: new Set(entries.flatMap(([name, value]) => (value === true ? [name] : [])))
		};
	} catch (error) {
		throw new BadUsage(error instanceof Error ? error.message.split('. ')[0] : String(error));
	}
}

/** The value of an option that takes one of a few words. Throws BadUsage naming them. */
export function oneOf<Word extends string>(verb: string, name: string, value: string, known: readonly Word[]): Word {
	const found = known.find((word) => word === value);
	if (found === undefined) throw new BadUsage(`${verb}: expected --${name} ${known.join(' or ')}, got "${value}"`);
	return found;
}
