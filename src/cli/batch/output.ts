import { once } from 'node:events';
import { closeSync, ftruncateSync, openSync, writeSync } from 'node:fs';
import { BadInput } from '../failures';

/** Where a batch puts its lines. */
export interface Output {
	/** Resolves when the next line may come. */
	readonly write: (line: string) => Promise<void>;
	readonly close: () => void;
}

export const standardOutput: Output = {
	write: async (line) => {
		if (!process.stdout.write(`${line}\n`)) await once(process.stdout, 'drain');
	},
	close: () => undefined
};

/** A new file, or one to go on with after its first `keptBytes`. Throws BadInput where it cannot be written. */
export function fileOutput(path: string, keptBytes: number | undefined): Output {
	try {
		const handle = openSync(path, keptBytes === undefined ? 'wx' : 'a');
		if (keptBytes !== undefined) ftruncateSync(handle, keptBytes);
		return {
			write: (line) => {
				writeSync(handle, `${line}\n`);
				return Promise.resolve();
			},
			close: () => {
				closeSync(handle);
			}
		};
	} catch (error) {
		if ((error as NodeJS.ErrnoException).code === 'EEXIST')
			throw new BadInput([
				`${path}: expected a new file, got one that is there; go on with it by --resume, or name another`
			]);
		throw new BadInput([`${path}: cannot be written: ${error instanceof Error ? error.message : String(error)}`]);
	}
}
