import '../../src/core/layout/font/bundled';
import { flattenPhoto } from '../../src/core/photo/flattenPhoto';
import { photograph, shotOf } from '../support/camera';
import { OTHER_PAGES, otherPage, scanOf } from '../support/otherPages';
import { context } from '../support/photoCase';

/**
 * Pictures of things that are not our sheet: forms, letters, faces, blank paper, an official-looking ballot, and pages with
 * somebody else's code. None may be read. `--count N` (default 200); every fourth is taken with the camera of the tests, the
 * others are scans.
 */
const flag = process.argv.indexOf('--count');
const count = flag > 0 ? Number(process.argv[flag + 1]) : 200;

const said = new Map<string, number>();
let read = 0;
for (let seed = 1; seed <= count; seed += 1) {
	const kind = OTHER_PAGES[seed % OTHER_PAGES.length]!;
	const page = otherPage(kind, seed);
	const picture = seed % 4 === 0 ? photograph(page, shotOf(seed)) : scanOf(page, seed);
	const result = flattenPhoto(picture, context);
	const reason = 'refused' in result ? result.refused : 'read';
	if (reason === 'read') read += 1;
	const key = `${kind}: ${reason}`;
	said.set(key, (said.get(key) ?? 0) + 1);
}
process.stdout.write(
	`${count} pictures that are not our sheet: ${read} read; ${[...said].map(([key, times]) => `${key} ${times}`).join(', ')}\n` +
		`limit 0 read: ${read === 0 ? 'PASS' : 'FAIL'}\n`
);
if (read > 0) process.exitCode = 1;
