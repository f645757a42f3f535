/** One JSON document on one line of standard output. */
export function print(document: unknown): void {
	process.stdout.write(`${JSON.stringify(document)}\n`);
}
