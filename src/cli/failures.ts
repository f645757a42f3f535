/** The command was called wrongly: exit code 2. */
export class BadUsage extends Error {
	override readonly name = 'BadUsage';
}

/** A file could not be used: exit code 1. One line for each problem. */
export class BadInput extends Error {
	override readonly name = 'BadInput';
	readonly lines: readonly string[];

	constructor(lines: readonly string[]) {
		super(lines.join('\n'));
		this.lines = lines;
	}
}
