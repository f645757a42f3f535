import { writeFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { county } from '../../src/core/election/demo';
import { layout, markedSheet, readFlat } from '../support/photoCase';
import { pictureFile } from './pictureFile';
import { fairhand, fileWith } from './run';

const sheet = markedSheet(3);

describe('read a photo', () => {
	test.each(['scan.png', 'scan.jpg'])('tells page and style from its code and reads the marks: %s', (name) => {
		const { code, lines } = fairhand('read', pictureFile(name, sheet.flat));
		expect(code).toBe(0);
		const record = JSON.parse(lines[0]!) as {
			style: string;
			pages: number[];
			contests: { machine: { targets: { choice: string; level: string }[] } }[];
		};
		expect(record).toMatchObject({ election: county.id, style: layout.style, pages: [sheet.page] });
		const levels = record.contests.flatMap(({ machine }) => machine.targets.map(({ level }) => level));
		const flat = readFlat(sheet.flat, sheet.page).targets.map(({ level }) => level);
		expect(levels.filter((level) => level === 'dark').length).toBeGreaterThan(2);
		expect([...levels].sort()).toEqual([...flat].sort());
	});

	test('refuses what is no sheet of ours and a damaged file with a line each, and goes on', () => {
		const blank = pictureFile('blank.png', { width: 400, height: 500, data: new Uint8Array(200_000).fill(240) });
		const damaged = fileWith('damaged.jpg', '');
		writeFileSync(damaged, Buffer.from([0xff, 0xd8, 0xff, 0xe0, 1, 2, 3]));
		const { code, lines, errors } = fairhand('read', damaged, blank);
		expect(code).toBe(1);
		expect(lines.map((line) => (JSON.parse(line) as { refused: { code: string } }).refused.code)).toEqual([
			'damaged',
			'not-our-sheet'
		]);
		expect(errors).toHaveLength(2);
	});
});
