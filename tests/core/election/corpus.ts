import { countyWithAnswers as county } from '$core/answers/demoCounty';

/** One way to break the demo county's file, and where `check` has to say so. */
export interface Fault {
	readonly name: string;
	/** Values put at paths; undefined takes the field away. */
	readonly put: Readonly<Record<string, unknown>>;
	/** Paths of all problems, in any order. */
	readonly problems: readonly string[];
	/** `shape`: a schema sees it. `meaning`: only `check` does. `open`: the file may be tried out, not published. */
	readonly sort: 'shape' | 'meaning' | 'open';
}

const long = 'x'.repeat(20_001);

export const FAULTS: readonly Fault[] = [
	{ name: 'another format', put: { format: 'ballot/2' }, problems: ['format'], sort: 'shape' },
	{ name: 'no id', put: { id: undefined }, problems: ['id'], sort: 'shape' },
	{ name: 'an id with a space', put: { id: 'demo county' }, problems: ['id'], sort: 'shape' },
	{ name: 'an id too long', put: { id: 'x'.repeat(65) }, problems: ['id'], sort: 'shape' },
	{ name: 'a field nobody knows', put: { colour: 'green' }, problems: ['colour'], sort: 'shape' },
	{ name: 'invented as a word', put: { invented: 'yes' }, problems: ['invented'], sort: 'shape' },
	{ name: 'a bad language tag', put: { 'languages[1]': 'Spanish' }, problems: ['languages[1]'], sort: 'shape' },
	{ name: 'a text that is a string', put: { title: 'September Primary' }, problems: ['title'], sort: 'shape' },
	{ name: 'a text that is no text', put: { 'title.es': 7 }, problems: ['title.es'], sort: 'shape' },
	{ name: 'a text without end', put: { 'title.en': long }, problems: ['title.en'], sort: 'shape' },
	{ name: 'a missing translation', put: { 'title.es': undefined }, problems: ['title.es'], sort: 'meaning' },
	{ name: 'a blank translation', put: { 'title.es': ' ' }, problems: ['title.es'], sort: 'open' },
	{ name: 'a language the file does not name', put: { 'title.fr': 'Primaire' }, problems: ['title.fr'], sort: 'open' },
	{ name: 'an address that would run', put: { 'office.web': 'javascript:x' }, problems: ['office.web'], sort: 'shape' },
	{
		name: 'a zone of no place',
		put: { 'office.timeZone': 'Mars/Base' },
		problems: ['office.timeZone'],
		sort: 'meaning'
	},
	{ name: 'a zone as an offset', put: { 'office.timeZone': '+05:00' }, problems: ['office.timeZone'], sort: 'shape' },
	{ name: 'no phone', put: { 'office.phone': undefined }, problems: ['office.phone'], sort: 'shape' },
	{ name: 'an unknown kind of election', put: { kind: 'runoff' }, problems: ['kind'], sort: 'shape' },
	{ name: 'a date written the other way', put: { date: '14.9.2027' }, problems: ['date'], sort: 'shape' },
	{ name: 'a 29 February of a common year', put: { date: '2027-02-29' }, problems: ['date'], sort: 'meaning' },
	{ name: 'half a day', put: { 'dates[1].offsetDays': -22.5 }, problems: ['dates[1].offsetDays'], sort: 'shape' },
	{
		name: 'an offset as text',
		put: { 'dates[1].offsetDays': '-22' },
		problems: ['dates[1].offsetDays'],
		sort: 'shape'
	},
	{ name: 'hour 24', put: { 'dates[2].time': '24:00' }, problems: ['dates[2].time'], sort: 'shape' },
	{ name: 'an unknown date', put: { 'dates[0].id': 'party' }, problems: ['dates[0].id'], sort: 'shape' },
	{ name: 'a date twice', put: { 'dates[0].id': 'mailing' }, problems: ['dates[1].id'], sort: 'meaning' },
	{ name: 'a date with no rule named', put: { 'dates[0].cite': '' }, problems: ['dates[0].cite'], sort: 'open' },
	{ name: 'an unknown target', put: { 'target.shape': 'star' }, problems: ['target.shape'], sort: 'shape' },
	{ name: 'a target of no size', put: { 'target.widthPt': 0 }, problems: ['target.widthPt'], sort: 'shape' },
	{ name: 'a target under 3 mm', put: { 'target.heightPt': 8.5 }, problems: ['target.heightPt'], sort: 'open' },
	{ name: 'no target', put: { target: undefined }, problems: ['target'], sort: 'shape' },
	{
		name: 'an old target with a size',
		put: { 'previousTarget.widthPt': 9 },
		problems: ['previousTarget.widthPt'],
		sort: 'shape'
	},
	{
		name: 'a party twice',
		put: { 'parties[1].id': 'lantern' },
		problems: [
			'parties[1].id',
			'contests[0].choices[1].party',
			'contests[2].choices[0].party',
			'contests[2].choices[1].party',
			'contests[2].choices[2].party',
			'contests[2].party',
			'contests[4].choices[0].party',
			'contests[4].choices[1].party',
			'contests[4].party'
		],
		sort: 'meaning'
	},
	{ name: 'a primary without its notice', put: { primaryRule: undefined }, problems: ['primaryRule'], sort: 'open' },
	{
		name: 'a primary rule that says nothing',
		put: { 'primaryRule.notice': undefined },
		problems: ['primaryRule.notice'],
		sort: 'shape'
	},
	{ name: 'no contests', put: { contests: undefined }, problems: ['contests'], sort: 'shape' },
	{
		name: 'a contest that is null',
		put: { 'contests[12]': null },
		problems: ['contests[12]', 'styles[1].contests[6]'],
		sort: 'shape'
	},
	{
		name: 'a contest of no kind',
		put: { 'contests[5].kind': undefined },
		problems: ['contests[5].kind'],
		sort: 'shape'
	},
	{
		name: 'a contest of an unknown kind',
		put: { 'contests[5].kind': 'race' },
		problems: ['contests[5].kind'],
		sort: 'shape'
	},
	{
		name: 'a contest id twice',
		put: { 'contests[6].id': 'treasurer' },
		problems: ['contests[6].id', 'styles[1].contests[1]', 'styles[2].contests[1]'],
		sort: 'meaning'
	},
	{
		name: 'a contest of a party that is not there',
		put: { 'contests[5].party': 'anvil' },
		problems: ['contests[5].party'],
		sort: 'meaning'
	},
	{ name: 'vote for none', put: { 'contests[5].voteFor': 0 }, problems: ['contests[5].voteFor'], sort: 'shape' },
	{
		name: 'vote for more than there are',
		put: { 'contests[5].voteFor': 6 },
		problems: ['contests[5].voteFor'],
		sort: 'meaning'
	},
	{
		name: 'ranks where nothing is ranked',
		put: { 'contests[5].ranks': 3 },
		problems: ['contests[5].ranks'],
		sort: 'shape'
	},
	{
		name: 'a ranked contest without ranks',
		put: { 'contests[5].kind': 'ranked' },
		problems: ['contests[5].ranks'],
		sort: 'shape'
	},
	{ name: 'no choices', put: { 'contests[5].choices': [] }, problems: ['contests[5].choices'], sort: 'shape' },
	{
		name: 'a choice id twice',
		put: { 'contests[5].choices[1].id': 'fenwright' },
		problems: ['contests[5].choices[1].id'],
		sort: 'meaning'
	},
	{
		name: 'a choice without a name',
		put: { 'contests[5].choices[1].name': undefined },
		problems: ['contests[5].choices[1].name'],
		sort: 'shape'
	},
	{
		name: 'a choice of an unknown kind',
		put: { 'contests[5].choices[1].kind': 'person' },
		problems: ['contests[5].choices[1].kind'],
		sort: 'shape'
	},
	{
		name: 'a choice of a party that is not there',
		put: { 'contests[5].choices[1].party': 'anvil' },
		problems: ['contests[5].choices[1].party'],
		sort: 'meaning'
	},
	{
		name: 'a write-in line in the middle',
		put: { 'contests[5].choices[1].kind': 'write-in', 'contests[5].choices[1].detail': undefined },
		problems: ['contests[5].choices[1]'],
		sort: 'meaning'
	},
	{
		name: 'a write-in line with a party',
		put: { 'contests[5].choices[4].party': 'lantern' },
		problems: ['contests[5].choices[4].party'],
		sort: 'shape'
	},
	{
		name: 'a candidate with an answer',
		put: { 'contests[5].choices[0].answer': 'yes' },
		problems: ['contests[5].choices[0].answer'],
		sort: 'shape'
	},
	{
		name: 'a measure without no',
		put: { 'contests[16].choices[1]': undefined },
		problems: ['contests[16].choices'],
		sort: 'shape'
	},
	{
		name: 'a measure with two yes',
		put: { 'contests[16].choices[1].answer': 'yes' },
		problems: ['contests[16].choices'],
		sort: 'shape'
	},
	{
		name: 'a measure with a misspelt answer',
		put: { 'contests[16].choices[1].answer': 'nope' },
		problems: ['contests[16].choices[1].answer'],
		sort: 'shape'
	},
	{
		name: 'a measure with an answer not said',
		put: { 'contests[16].choices[1].answer': undefined },
		problems: ['contests[16].choices[1].answer'],
		sort: 'shape'
	},
	{
		name: 'a measure with a candidate',
		put: { 'contests[16].choices[1]': { id: 'no', kind: 'candidate', name: { en: 'No', es: 'No' } } },
		problems: ['contests[16].choices[1].kind'],
		sort: 'shape'
	},
	{
		name: 'a measure to vote twice on',
		put: { 'contests[16].voteFor': 2 },
		problems: ['contests[16].voteFor'],
		sort: 'shape'
	},
	{
		name: 'a retention of a party',
		put: { 'contests[15].party': 'lantern' },
		problems: ['contests[15].party'],
		sort: 'shape'
	},
	{
		name: 'a party preference for no party',
		put: { 'contests[0].choices[1].party': undefined },
		problems: ['contests[0].choices[1].party'],
		sort: 'shape'
	},
	{
		name: 'no precincts',
		put: { precincts: [] },
		problems: [
			'precincts',
			'styles[0].precincts[0]',
			'styles[0].precincts[1]',
			'styles[0].precincts[2]',
			'styles[1].precincts[0]',
			'styles[1].precincts[1]',
			'styles[1].precincts[2]',
			'styles[2].precincts[0]',
			'styles[2].precincts[1]'
		],
		sort: 'shape'
	},
	{ name: 'no styles', put: { styles: [] }, problems: ['styles'], sort: 'shape' },
	{
		name: 'a style of no contests',
		put: { 'styles[0].contests': [] },
		problems: ['styles[0].contests'],
		sort: 'shape'
	},
	{
		name: 'a style of no precincts',
		put: { 'styles[0].precincts': [] },
		problems: ['styles[0].precincts'],
		sort: 'shape'
	},
	{ name: 'a style id twice', put: { 'styles[1].id': 'ferrystead' }, problems: ['styles[1].id'], sort: 'meaning' },
	{
		name: 'a contest that is not there',
		put: { 'styles[0].contests[0]': 'coroner' },
		problems: ['styles[0].contests[0]'],
		sort: 'meaning'
	},
	{
		name: 'a contest twice on a style',
		put: { 'styles[0].contests[1]': 'party-preference' },
		problems: ['styles[0].contests[1]'],
		sort: 'shape'
	},
	{
		name: 'a precinct that is not there',
		put: { 'styles[0].precincts[0]': 'atlantis' },
		problems: ['styles[0].precincts[0]'],
		sort: 'meaning'
	},
	{
		name: 'a rotation of a contest of another style',
		put: { 'styles[1].rotation.mayor-ferrystead': 1 },
		problems: ['styles[1].rotation.mayor-ferrystead'],
		sort: 'meaning'
	},
	{
		name: 'half a place of rotation',
		put: { 'styles[1].rotation.sheriff': 0.5 },
		problems: ['styles[1].rotation.sheriff'],
		sort: 'shape'
	},
	{
		name: 'rotation backwards',
		put: { 'styles[1].rotation.sheriff': -1 },
		problems: ['styles[1].rotation.sheriff'],
		sort: 'shape'
	},
	{ name: 'a rulebook by a path', put: { rulebook: '../rules' }, problems: ['rulebook'], sort: 'shape' },
	{ name: 'a threshold in percent', put: { 'thresholds.dark': 50 }, problems: ['thresholds.dark'], sort: 'shape' },
	{
		name: 'thresholds out of order',
		put: { 'thresholds.empty': 0.6 },
		problems: ['thresholds.empty'],
		sort: 'meaning'
	},
	{
		name: 'thresholds with nothing between',
		put: { 'thresholds.empty': 0.55 },
		problems: ['thresholds.empty'],
		sort: 'meaning'
	},
	{ name: 'no instructions', put: { instructions: undefined }, problems: ['instructions'], sort: 'shape' },
	{ name: 'no word on the pen', put: { 'instructions.pen': undefined }, problems: ['instructions.pen'], sort: 'shape' },
	{
		name: 'no correction',
		put: { 'instructions.correction': undefined },
		problems: ['instructions.correction'],
		sort: 'open'
	},
	{
		name: 'an empty correction',
		put: { 'instructions.correction': {} },
		problems: ['instructions.correction.method', 'instructions.correction.steps', 'instructions.correction.cite'],
		sort: 'open'
	},
	{
		name: 'an empty method',
		put: { 'instructions.correction.method': '' },
		problems: ['instructions.correction.method'],
		sort: 'open'
	},
	{
		name: 'an undecided method',
		put: { 'instructions.correction.method': 'undecided' },
		problems: ['instructions.correction.method'],
		sort: 'open'
	},
	{
		name: 'an unknown method',
		put: { 'instructions.correction.method': 'erase' },
		problems: ['instructions.correction.method'],
		sort: 'shape'
	},
	{
		name: 'a stage without steps',
		put: { 'instructions.correction.steps.mailed': [] },
		problems: ['instructions.correction.steps.mailed'],
		sort: 'open'
	},
	{
		name: 'a stage left out',
		put: { 'instructions.correction.steps.mailed': undefined },
		problems: ['instructions.correction.steps.mailed'],
		sort: 'open'
	},
	{
		name: 'an unknown stage',
		put: { 'instructions.correction.steps.flown': [] },
		problems: ['instructions.correction.steps.flown'],
		sort: 'shape'
	},
	{
		name: 'a step that is null',
		put: { 'instructions.correction.steps.mailed[0]': null },
		problems: ['instructions.correction.steps.mailed[0]'],
		sort: 'shape'
	},
	{
		name: 'a warning as a number',
		put: { 'instructions.pollingPlaceWarns.blank': 1 },
		problems: ['instructions.pollingPlaceWarns.blank'],
		sort: 'shape'
	},
	{
		name: 'a citation in a language that is none',
		put: { 'answers[0].citeIn': { Spanish: 'Norma' } },
		problems: ['answers[0].citeIn.Spanish'],
		sort: 'shape'
	},
	{
		name: 'an answer nobody approved',
		put: { 'answers[0].approvedBy': '' },
		problems: ['answers[0].approvedBy'],
		sort: 'open'
	},
	{ name: 'an answer id twice', put: { 'answers[1].id': 'which-pen' }, problems: ['answers[1].id'], sort: 'meaning' },
	{
		name: 'an answer that ends before it begins',
		put: { 'answers[0].validFrom': '2027-09-01', 'answers[0].validTo': '2027-08-01' },
		problems: ['answers[0].validTo'],
		sort: 'meaning'
	},
	{
		name: 'a question that nobody asks',
		put: { 'answers[0].questions[0]': 98 },
		problems: ['answers[0].questions[0]'],
		sort: 'shape'
	},
	{
		name: 'an answer of an unknown kind',
		put: { 'answers[0].kind': 'gossip' },
		problems: ['answers[0].kind'],
		sort: 'shape'
	},
	{
		name: 'an unknown mistake code',
		put: { 'answers[1].mistakeCode': 'oops' },
		problems: ['answers[1].mistakeCode'],
		sort: 'shape'
	},
	{
		name: 'callers’ words that are one text',
		put: { 'answers[0].callersWords.es': 'pluma' },
		problems: ['answers[0].callersWords.es'],
		sort: 'shape'
	},
	{
		name: 'no callers’ words in a language',
		put: { 'answers[0].callersWords.es': undefined },
		problems: ['answers[0].callersWords.es'],
		sort: 'meaning'
	},
	{
		name: 'a delicate answer marked as an easy one',
		put: { 'answers[3].varies': 'V1' },
		problems: ['answers[3].varies'],
		sort: 'meaning'
	},
	{
		name: 'a date that the file does not have',
		put: { 'answers[0].readAloud.en': 'By {{date:party}}.' },
		problems: ['answers[0].readAloud.en'],
		sort: 'meaning'
	},
	{
		name: 'a passage that the file does not have',
		put: { 'answers[0].readAloud.es': '{{say:nothing}}' },
		problems: ['answers[0].readAloud.es'],
		sort: 'meaning'
	},
	{
		name: 'a part about nothing known',
		put: { 'answers[0].parts[0].about': 'gossip' },
		problems: ['answers[0].parts[0].about'],
		sort: 'shape'
	},
	{
		name: 'a part for no stage at all',
		put: { 'answers[0].parts[0].stages': [] },
		problems: ['answers[0].parts[0].stages'],
		sort: 'shape'
	},
	{
		name: 'a part for a stage that the answer is not for',
		put: { 'answers[0].parts[0].stages': ['mailed'] },
		problems: ['answers[0].parts[0].stages[0]'],
		sort: 'meaning'
	},
	{
		name: 'fewer parts than paragraphs',
		put: { 'answers[0].parts[2]': undefined },
		problems: ['answers[0].parts', 'answers[0].parts'],
		sort: 'meaning'
	},
	{
		name: 'a passage within a passage',
		put: { 'passages[1].text.en': '{{say:return}}' },
		problems: ['passages[1].text.en'],
		sort: 'meaning'
	},
	{
		name: 'a passage that changes on no date',
		put: { 'passages[0].after[0].date': 'tomorrow' },
		problems: ['passages[0].after[0].date'],
		sort: 'shape'
	},
	{
		name: 'an open answer where offices say the opposite',
		put: { 'answers[3].text': { en: '', es: ' ' } },
		problems: ['answers[3].text'],
		sort: 'open'
	},
	{
		name: 'no answer at all where offices say the opposite',
		put: { 'answers[3]': undefined },
		problems: ['answers'],
		sort: 'open'
	},
	{
		name: 'two answers to one question on the same days',
		put: { 'answers[1].questions': [1, 2] },
		problems: ['answers[1].questions'],
		sort: 'open'
	},
	{
		name: 'a step that says a passage of another file',
		put: { 'instructions.correction.steps.holding[0].en': 'Do this. {{say:dance}}' },
		problems: ['instructions.correction.steps.holding[0].en'],
		sort: 'meaning'
	},
	{
		name: 'a step with a date that is none',
		put: { 'instructions.correction.steps.mailed[0].es': 'Hasta el {{date:picnic}}.' },
		problems: ['instructions.correction.steps.mailed[0].es'],
		sort: 'meaning'
	},
	{ name: 'a paper that is no size', put: { 'page.paper': 'napkin' }, problems: ['page.paper'], sort: 'shape' },
	{ name: 'one column', put: { 'page.columns': 1 }, problems: ['page.columns'], sort: 'shape' },
	{ name: 'a fold off the page', put: { 'page.foldsAt[1]': 1.2 }, problems: ['page.foldsAt[1]'], sort: 'shape' },
	{ name: 'names too small to print', put: { 'page.namePt': 2 }, problems: ['page.namePt'], sort: 'shape' },
	{ name: 'names under 10 points', put: { 'page.namePt': 9 }, problems: ['page.namePt'], sort: 'open' }
];

/** A fresh copy of the demo county's document, with `put` applied. An undefined in a list takes the entry out. */
export function broken(put: Readonly<Record<string, unknown>>): unknown {
	const document = structuredClone(county) as unknown as Record<string, unknown>;
	for (const [path, value] of Object.entries(put)) {
		const keys = path.split(/[.[\]]+/).filter((key) => key !== '');
		const last = keys.pop();
		let parent = document;
		for (const key of keys) parent = parent[key] as Record<string, unknown>;
		if (last === undefined) throw new Error(`broken: expected a path, got "${path}"`);
		if (value !== undefined) parent[last] = value;
		else if (Array.isArray(parent)) parent.splice(Number(last), 1);
		else Reflect.deleteProperty(parent, last);
	}
	return document;
}
