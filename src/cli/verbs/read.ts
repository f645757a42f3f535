import { readFileSync, statSync } from 'node:fs';
import '../../core/layout/font/bundled';
import type { Election } from '../../core/election/election';
import { checkInk } from '../../core/ink/checkInk';
import type { PageInk } from '../../core/ink/stroke';
import { layOut } from '../../core/layout/layOutBallot';
import { inkPage } from '../../core/page/inkPage';
import { printPage } from '../../core/page/printPage';
import { readBallot, type BallotReading, type OpenBallot } from '../../core/read';
import type { Rulebook } from '../../core/rules/rule';
import { BadUsage } from '../failures';
import { electionOf, photoWords, rulebookOf, styleOf, wordsOf } from '../files';
import { optionsOf } from '../options';
import { PhotoReader } from '../photos';
import { greyOf, isPicture } from '../picture';
import { print } from '../print';
import { tuple } from './layout';

/** An ink file of a very full ballot is about 1 MB; this leaves room and keeps a wrong file out of memory. */
const LARGEST_INK_BYTES = 24 * 1024 * 1024;

/** The largest photo that phones save. */
const LARGEST_PHOTO_BYTES = 60 * 1024 * 1024;

/** Why a file was not read: a code to count by and a line for people. */
interface Refused {
	readonly code: string;
	readonly message: string;
}

/** `read FILE...`: one line for each file, in the order given; a bad file is one line and the rest go on. */
export function read(args: readonly string[]): number {
	const { files, values } = optionsOf(args, ['election', 'style', 'rulebook']);
	if (files.length === 0) throw new BadUsage('read: expected at least one FILE, got none');
	const election = electionOf(values['election']);
	const rulebook = rulebookOf(values['rulebook'] ?? election.rulebook);
	const style = styleOf(election, values['style']);
	const opened = new Map<string, OpenBallot>();
	const open = (id: string): OpenBallot => {
		const ballot = opened.get(id) ?? openBallot(election, id, rulebook);
		opened.set(id, ballot);
		return ballot;
	};
	const photos = new PhotoReader(election, rulebook);
	let refusals = 0;
	for (const file of files) {
		const result = readFile(file, election, style, open, photos);
		if ('refused' in result) {
			refusals += 1;
			print({ file, refused: result.refused });
			process.stderr.write(`fairhand: ${file}: ${result.refused.message}\n`);
		} else print(recordOf(file, result.reading, result.open));
	}
	return refusals > 0 ? 1 : 0;
}

function openBallot(election: Election, style: string, rulebook: Rulebook): OpenBallot {
	const layout = layOut(election, style, wordsOf(election.languages), election.languages.slice(0, 1));
	return { election, layout, rulebook, prints: layout.pages.map(({ page }) => printPage(layout, page)) };
}

type Result = { readonly refused: Refused } | { readonly reading: BallotReading; readonly open: OpenBallot };

function readFile(
	file: string,
	election: Election,
	style: string,
	open: (style: string) => OpenBallot,
	photos: PhotoReader
): Result {
	const content = contentOf(file);
	if ('refused' in content) return content;
	if (isPicture(content.bytes)) return readPhoto(content.bytes, photos);
	let document: unknown;
	try {
		document = JSON.parse(content.bytes.toString('utf8'));
	} catch {
		return refuse('not-json', 'expected ink as JSON, got something else; check that the file is whole');
	}
	const { ink, problem } = checkInk(document);
	if (!ink) return { refused: problem };
	if (ink.election !== undefined && ink.election !== election.id)
		return refuse(
			'other-election',
			`expected ink of election "${election.id}", got "${ink.election}"; name its file with --election`
		);
	const id = ink.style ?? style;
	if (!election.styles.some((known) => known.id === id))
		return refuse('no-such-style', `expected a style of ${election.styles.map((s) => s.id).join(', ')}, got "${id}"`);
	const ballot = open(id);
	const missing = ink.pages.find(({ page }) => page > ballot.prints.length);
	if (missing)
		return refuse(
			'no-such-page',
			`expected a page from 1 to ${ballot.prints.length} of style "${id}", got ${missing.page}`
		);
	return {
		reading: readBallot(new Map(ink.pages.map((page) => [page.page, imageOf(page, ballot)])), ballot),
		open: ballot
	};
}

function contentOf(file: string): { readonly refused: Refused } | { readonly bytes: Buffer } {
	try {
		const { size } = statSync(file);
		if (size > LARGEST_PHOTO_BYTES)
			return refuse('too-large', `expected at most ${LARGEST_PHOTO_BYTES} bytes, got ${size}; take a smaller photo`);
		const bytes = readFileSync(file);
		if (size > LARGEST_INK_BYTES && !isPicture(bytes))
			return refuse('too-large', `expected at most ${LARGEST_INK_BYTES} bytes of ink, got ${size}; split it by page`);
		return { bytes };
	} catch (error) {
		return refuse('unreadable', `cannot be read: ${error instanceof Error ? error.message : String(error)}`);
	}
}

/** A photo of one page of a practice sheet; its code says which. */
function readPhoto(bytes: Buffer, photos: PhotoReader): Result {
	let result: ReturnType<PhotoReader['flatten']>;
	try {
		result = photos.flatten(greyOf(bytes));
	} catch (error) {
		if (error instanceof RangeError) throw error;
		return refuse('damaged', `expected a whole JPEG or PNG: ${error instanceof Error ? error.message : String(error)}`);
	}
	if ('refused' in result) return refuse(result.refused, photoWords()[result.refused]);
	const open = photos.openOf(result.code);
	return { reading: readBallot(new Map([[result.code.page, result.page]]), open), open };
}

const refuse = (code: string, message: string): { readonly refused: Refused } => ({ refused: { code, message } });

function imageOf(ink: PageInk, { layout, prints }: OpenBallot): ReturnType<typeof inkPage> {
	const index = ink.page - 1;
	const anchors = (layout.pages[index]?.choices ?? []).map(({ target }) => target);
	const sheet = prints[index];
	if (!sheet) throw new RangeError(`imageOf: expected a printed page ${ink.page}, got ${prints.length} pages`);
	return inkPage(sheet, ink, anchors);
}

/** The record of one file, with the field names of the command line's contract. */
function recordOf(
	file: string,
	{ pages, contests, ballot }: BallotReading,
	{ election, layout, rulebook }: OpenBallot
) {
	return {
		file,
		election: election.id,
		style: layout.style,
		pages: pages.map(({ page }) => page),
		rulebook: rulebook.id,
		marks: pages.flatMap(({ marks }) =>
			marks.map(({ box, confidence, ...mark }) => ({ ...mark, box: tuple(box), confidence: round(confidence) }))
		),
		contests: contests.map(({ contest, machine, people, advice, warned }) => ({
			contest,
			machine: {
				...machine,
				targets: machine.targets.map(({ choice, rank, fill, darkness, score, level }) => ({
					choice,
					...(rank === undefined ? {} : { rank }),
					fill: round(fill),
					darkness: round(darkness),
					score: round(score),
					level
				}))
			},
			people,
			advice,
			warned
		})),
		ballot
	};
}

const round = (share: number): number => Math.round(share * 10000) / 10000;
