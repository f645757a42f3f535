import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { countyWithAnswers } from '../core/answers/demoCounty';
import type { Election, Problem } from '../core/election/election';
import { parseElection } from '../core/election/parseElection';
import { layOut } from '../core/layout/layOutBallot';
import type { Layout, PrintSize } from '../core/layout/layout';
import type { PrintedWords } from '../core/layout/words';
import { checkRulebook } from '../core/rules/checkRulebook';
import type { PhotoRefusal } from '../core/photo/refusals';
import type { Rulebook } from '../core/rules/rule';
import { BadInput, BadUsage } from './failures';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const SETS = join(ROOT, 'src/core/rules/sets');

/** Larger than any election file or rulebook an office would write; keeps a wrong file from filling memory. */
const LARGEST_DOCUMENT_BYTES = 16 * 1024 * 1024;

/** The text of a file. Throws BadInput, naming the file and what to do, when it cannot be read or is too large. */
export function textOf(file: string, largestBytes = LARGEST_DOCUMENT_BYTES): string {
	let bytes: number;
	try {
		const stat = statSync(file);
		if (!stat.isFile()) throw new Error('it is not a file');
		bytes = stat.size;
	} catch (error) {
		throw new BadInput([`${file}: cannot be read: ${reason(error)}`]);
	}
	if (bytes > largestBytes)
		throw new BadInput([`${file}: expected at most ${largestBytes} bytes, got ${bytes}; split it or check the path`]);
	return readFileSync(file, 'utf8');
}

const DEMO = join(ROOT, 'src/core/election/files/county.json');

/** The election of a file, or the demo county's with its answers. Throws BadInput with every problem when it holds errors. */
export function electionOf(file: string | undefined): Election {
	const path = file ?? DEMO;
	const text = file === undefined ? JSON.stringify(countyWithAnswers) : textOf(path);
	// Its rulebook is looked up where one is needed: another may be asked for, and most verbs need none.
	const { election, problems } = parseElection(text, { languages: languageTags() });
	if (!election) throw new BadInput(problems.filter((p) => p.severity === 'error').map((p) => lineOf(path, p)));
	return election;
}

/** Tags of the languages that there are words for. */
export function languageTags(): readonly string[] {
	return readdirSync(join(ROOT, 'locales')).flatMap((name) => (/^(.+)\.json$/.exec(name) ?? []).slice(1));
}

/** The style asked for, or the first. Throws BadInput naming those that exist. */
export function styleOf(election: Election, style: string | undefined): string {
	const ids = election.styles.map(({ id }) => id);
	const found = style ?? ids[0];
	if (found === undefined || !ids.includes(found))
		throw new BadInput([`style: expected one of ${ids.join(', ')}, got "${found ?? ''}"`]);
	return found;
}

/** The languages asked for, "en,es", or the main one. Throws BadInput naming those of the election, BadUsage for three. */
export function languagesOf(election: Election, languages: string | undefined): readonly string[] {
	const found = languages?.split(',') ?? election.languages.slice(0, 1);
	for (const language of found)
		if (!election.languages.includes(language))
			throw new BadInput([`languages: expected some of ${election.languages.join(', ')}, got "${language}"`]);
	if (found.length > 2) throw new BadUsage(`expected one or two --languages, got ${found.length}: ${found.join(', ')}`);
	return found;
}

/** The layout of a style. Throws BadInput where a contest is too tall for a page. */
export function layoutOf(
	election: Election,
	style: string,
	languages: readonly string[],
	printSize: PrintSize
): Layout {
	try {
		return layOut(election, style, wordsOf(election.languages), languages, printSize);
	} catch (error) {
		// Style and languages are known: what is left is a contest that no page holds, and the message names it.
		if (error instanceof RangeError) throw new BadInput([`${style}: ${error.message}`]);
		throw error;
	}
}

/** The rulebook with this id or in this file. Throws BadInput with every problem when it cannot be used. */
export function rulebookOf(idOrFile: string): Rulebook {
	const own = /^[a-z0-9-]+$/.test(idOrFile);
	const path = own ? join(SETS, `${idOrFile}.json`) : idOrFile;
	if (own && !rulebookIds().includes(idOrFile))
		throw new BadInput([`rulebook: expected one of ${rulebookIds().join(', ')} or a file, got "${idOrFile}"`]);
	let document: unknown;
	try {
		document = JSON.parse(textOf(path));
	} catch (error) {
		if (error instanceof BadInput) throw error;
		throw new BadInput([`${path}: is not JSON: ${reason(error)}`]);
	}
	const errors = checkRulebook(document).filter((problem) => problem.severity === 'error');
	if (errors.length > 0) throw new BadInput(errors.map((problem) => lineOf(path, problem)));
	return document as Rulebook;
}

/** Ids of the rulebooks that are there, sorted. */
export function rulebookIds(): readonly string[] {
	return readdirSync(SETS)
		.filter((name) => name.endsWith('.json'))
		.map((name) => name.slice(0, -'.json'.length))
		.sort();
}

/** The printed words of the sheet in each of `languages`, which are an election's. */
export function wordsOf(languages: readonly string[]): PrintedWords {
	const entries = languages.map((language) => {
		const path = join(ROOT, 'locales', `${language}.json`);
		const bundle = JSON.parse(textOf(path)) as { readonly layout: PrintedWords[string] };
		return [language, bundle.layout] as const;
	});
	return Object.fromEntries(entries);
}

/** What is said of a photo that is not read, in English: the command line speaks no other language. */
export function photoWords(): Readonly<Record<PhotoRefusal, string>> {
	const bundle = JSON.parse(textOf(join(ROOT, 'locales', 'en.json'))) as {
		readonly photo: { readonly refusal: Readonly<Record<PhotoRefusal, string>> };
	};
	return bundle.photo.refusal;
}

const lineOf = (file: string, { path, message }: Problem): string => `${file}: ${path}: ${message}`;

const reason = (error: unknown): string => (error instanceof Error ? error.message : String(error));
