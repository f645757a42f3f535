import jpeg from 'jpeg-js';
import { writeFileSync } from 'node:fs';
import { PNG } from 'pngjs';
import { describe, expect, test } from 'vitest';
import { county } from '../../src/core/election/demo';
import type { GreyImage } from '../../src/core/image';
import { layout, markedSheet, readFlat } from '../support/photoCase';
import { fairhand, fileWith } from './run';

const sheet = markedSheet(3);

function pictureFile(name: string, { width, height, data }: GreyImage): string {
	const colours = Buffer.alloc(4 * data.length, 255);
	data.forEach((grey, i) => colours.fill(grey, 4 * i, 4 * i + 3));
	const path = fileWith(name, '');
	const png = new PNG({ width, height });
	colours.copy(png.data);
	writeFileSync(
		path,
		name.endsWith('.png') ? PNG.sync.write(png) : jpeg.encode({ width, height, data: colours }, 90).data
	);
	return path;
}

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
