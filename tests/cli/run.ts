import { spawnSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export interface Run {
	readonly code: number;
	readonly lines: readonly string[];
	readonly errors: readonly string[];
}

/** Runs the command line as a user does, in a process of its own. */
export function fairhand(...args: readonly string[]): Run {
	const { status, stdout, stderr } = spawnSync(process.execPath, ['--import', 'tsx', 'src/cli/main.ts', ...args], {
		encoding: 'utf8',
		maxBuffer: 1 << 28,
		timeout: 240_000
	});
	return { code: status ?? -1, lines: linesOf(stdout), errors: linesOf(stderr) };
}

const linesOf = (text: string): readonly string[] => text.split('\n').filter((line) => line !== '');

const folder = mkdtempSync(join(tmpdir(), 'fairhand-cli-'));

/** Writes a document (or plain text) to a file of its own and returns the path. */
export function fileWith(name: string, content: unknown): string {
	const path = join(folder, name);
	writeFileSync(path, typeof content === 'string' ? content : JSON.stringify(content));
	return path;
}
