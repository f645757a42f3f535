import { answerOn } from '../../core/answers/answerOn';
import { instantFrom } from '../../core/answers/instantFrom';
import { openSearch } from '../../lib/answers/search';
import { electionOf } from '../files';
import { BadInput, BadUsage } from '../failures';
import { optionsOf } from '../options';
import { print } from '../print';

/** `answers QUERY`: the answers that fit a caller's words, best first, one JSON line each, as they are given on a day. */
export function answers(args: readonly string[]): number {
	const { files: words, values } = optionsOf(args, ['election', 'lang', 'on']);
	const query = words.join(' ').trim();
	if (query === '') throw new BadUsage('answers: expected a QUERY, the caller’s words, got none');
	const election = electionOf(values['election']);
	const { languages, office } = election;
	const language = values['lang'] ?? languages[0] ?? '';
	if (!languages.includes(language))
		throw new BadInput([`answers: --lang: expected one of ${languages.join(', ')}, got "${language}"`]);
	const when = values['on'];
	const nowUtcMs = when === undefined ? Date.now() : instantFrom(when, office.timeZone);
	if (nowUtcMs === undefined)
		throw new BadInput([
			`answers: --on: expected a day as YYYY-MM-DD, or a minute as YYYY-MM-DDTHH:MM, got "${when ?? ''}"`
		]);
	const byId = new Map(election.answers.map((answer) => [answer.id, answer]));
	for (const { id, score } of openSearch(election.answers, language)(query)) {
		const answer = byId.get(id);
		if (!answer) continue;
		const { status, title, text } = answerOn(election, answer, nowUtcMs, language);
		print({ id, questions: answer.questions, score: Number(score.toFixed(3)), title, text, status });
	}
	return 0;
}
