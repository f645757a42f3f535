import { fair } from '$core/election/demo';
import { makeCases } from '$core/training/makeCases';
import { tableElection, tableSheets } from '$core/training/reviewSheets';
import en from '$locales/en.json';
import es from '$locales/es.json';

/** The table of the app: its contests, its cases before they are read, and their sheets in each language. */
export const election = tableElection(fair);
export const cases = makeCases(election.contests);
export const sheets = {
	en: tableSheets(election, { en: en.layout }, 'en'),
	es: tableSheets(election, { es: es.layout }, 'es')
};
