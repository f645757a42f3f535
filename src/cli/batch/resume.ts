import { createReadStream, existsSync } from 'node:fs';
import { BadInput } from '../failures';
import type { ReadSettings } from '../fileReader';
import type { ReadLine } from './tally';

/** What an interrupted batch left in its file. */
export interface Left {
	/** How often each file has a line. */
	readonly done: ReadonlyMap<string, number>;
	/** Bytes of the whole lines; what comes after them is torn or will be written anew. */
	readonly keptBytes: number;
}

const NEW_LINE = 0x0a;

/**
 * Goes through the lines that an earlier run wrote, `onLine` for each, one at a time. A last line that is torn or a
 * summary is given up; undefined where there is no file yet. Throws BadInput for a line that `read` did not write in
 * this format.
 */
export async function leftIn(
	path: string,
	format: ReadSettings['format'],
	onLine: (line: ReadLine) => void
): Promise<Left | undefined> {
	if (!existsSync(path)) return undefined;
	const done = new Map<string, number>();
	let keptBytes = 0;
	let number = 0;
	let isSummed = false;
	let rest: Buffer[] = [];
	const take = (bytes: Buffer): void => {
		number += 1;
		if (isSummed) throw new BadInput([`${path}: line ${number}: expected nothing after the summary`]);
		const line = parse(bytes, `${path}: line ${number}`, format);
		isSummed = line.summary !== undefined;
		if (isSummed) return;
		keptBytes += bytes.length + 1;
		const file = String(line.file);
		done.set(file, (done.get(file) ?? 0) + 1);
		onLine(line);
	};
	try {
		for await (const chunk of createReadStream(path) as AsyncIterable<Buffer>) {
			let from = 0;
			for (let end = chunk.indexOf(NEW_LINE); end >= 0; end = chunk.indexOf(NEW_LINE, from)) {
				const bytes = Buffer.concat([...rest, chunk.subarray(from, end)]);
				rest = [];
				from = end + 1;
				take(bytes);
			}
			rest.push(chunk.subarray(from));
		}
	} catch (error) {
		if (error instanceof BadInput) throw error;
		throw new BadInput([`${path}: cannot be read: ${error instanceof Error ? error.message : String(error)}`]);
	}
	return { done, keptBytes };
}

function parse(bytes: Buffer, where: string, format: ReadSettings['format']): ReadLine {
	let line: unknown;
	try {
		line = JSON.parse(bytes.toString('utf8'));
	} catch {
		line = undefined;
	}
	const found = named(line ?? {});
	const wanted = { codes: found.codes, record: found.contests, cvr: found.CVR }[format];
	if (found.summary !== undefined && format === 'codes') return found;
	if (typeof found.file !== 'string' || (found.refused === undefined && wanted === undefined))
		throw new BadInput([
			`${where}: expected a line of "read --format ${format}", got ${bytes.toString('utf8', 0, 60)}; name another file with --out`
		]);
	return found;
}

/** A line with its file: a NIST report has it as the name of its one record. */
function named(line: ReadLine): ReadLine {
	const [record] = Array.isArray(line.CVR) ? (line.CVR as readonly { readonly UniqueId?: unknown }[]) : [];
	return record ? { ...line, file: record.UniqueId } : line;
}

/** The files that are still to be read: each is left out as often as it has a line. */
export function stillToRead(files: readonly string[], { done }: Pick<Left, 'done'>): readonly string[] {
	const left = new Map(done);
	return files.filter((file) => {
		const times = left.get(file) ?? 0;
		if (times > 0) left.set(file, times - 1);
		return times === 0;
	});
}
