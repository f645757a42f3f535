import type { FileLine, FileReader } from '../fileReader';
import { WorkerPool } from './workerPool';

/** Files in work or waiting to be printed, for each worker: one slow file must not idle the others, nor fill memory. */
const AHEAD_PER_WORKER = 4;

/**
 * A line for each file, in the order given, read by `workers` threads with the settings of `reader`, or (0) by itself. The next file is only taken up
 * when the caller asks for the next line, so a slow output slows the reading and nothing piles up.
 */
export async function* readFiles(
	files: readonly string[],
	reader: FileReader,
	workers: number
): AsyncGenerator<FileLine> {
	if (workers === 0) {
		for (const file of files) yield reader.read(file);
		return;
	}
	const pool = new WorkerPool(workers, reader.settings);
	try {
		const ahead: Promise<FileLine>[] = [];
		for (const file of files) {
			ahead.push(pool.read(file));
			if (ahead.length >= workers * AHEAD_PER_WORKER) yield await (ahead.shift() as Promise<FileLine>);
		}
		while (ahead.length > 0) yield await (ahead.shift() as Promise<FileLine>);
	} finally {
		await pool.close();
	}
}
