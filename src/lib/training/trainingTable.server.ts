import { fair } from '$core/election/demo';
import '$core/layout/font/bundled';
import type { SheetWords } from '$core/layout/words';
import { makeCases } from '$core/training/makeCases';
import { readQueue } from '$core/training/reviewQueue';
import { stackOf } from '$core/training/reviewRecord';
import { tableElection, tableSheets } from '$core/training/reviewSheets';
import type { TrainingTable } from '$core/training/ruleOn';
import { LANGS, type Lang } from '$lib/i18n/i18n';

const election = tableElection(fair);
const cases = makeCases(election.contests);
const stack = stackOf(cases);
const [MAIN] = LANGS;

/**
 * The review table in one language, drawn and read while the app is built. Which cases are dealt is settled in the main
 * language, so that two people may take the same ones in two languages; each language reads its own sheets.
 */
export function trainingTable(lang: Lang, words: Readonly<Record<Lang, SheetWords>>): TrainingTable {
	const sheetsIn = (language: Lang) => tableSheets(election, { [language]: words[language] }, language);
	const layouts = sheetsIn(lang);
	const dealt = readQueue(cases, election, sheetsIn(MAIN));
	return { stack, election, layouts, queue: lang === MAIN ? dealt : readQueue(dealt, election, layouts) };
}
