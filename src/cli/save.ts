import { mkdirSync, writeFileSync } from 'node:fs';
import { BadInput } from './failures';

/** Writes a file. Throws BadInput, naming it, where that fails. */
export function save(file: string, document: string | Uint8Array): void {
	try {
		writeFileSync(file, document);
	} catch (error) {
		throw cannotBeWritten(file, error);
	}
}

/** Makes a folder where there is none. Throws BadInput, naming it, where that fails. */
export function makeFolder(folder: string): void {
	try {
		mkdirSync(folder, { recursive: true });
	} catch (error) {
		throw cannotBeWritten(folder, error);
	}
}

const cannotBeWritten = (path: string, error: unknown): BadInput =>
	new BadInput([`${path}: cannot be written: ${error instanceof Error ? error.message : String(error)}`]);
