import { fields, identifier, list, object, whole } from './fields';
import { at } from './report';
import { known, text, unique, type Scope } from './scope';

/** A rotation goes round after as many places as a contest has choices; no contest has more. */
const MOST_PLACES = 1000;

/** Reports every problem of the ballot styles: what they are, and what they name. */
export function checkStyles(
	scope: Scope,
	value: unknown,
	contests: ReadonlySet<string> | undefined,
	precincts: ReadonlySet<string> | undefined
): void {
	const { report } = scope;
	const ids = new Set<string>();
	list(report, value, 'styles', 1).forEach((entry, i) => {
		const path = at('styles', i);
		const style = fields(report, entry, path, ['id', 'name', 'precincts', 'contests'], ['rotation']);
		if (!style) return;
		unique(report, ids, identifier(report, style.id, at(path, 'id')), at(path, 'id'));
		text(scope, style.name, at(path, 'name'));
		checkNamesOf(scope, style.precincts, at(path, 'precincts'), precincts, 'precinct');
		const own = checkNamesOf(scope, style.contests, at(path, 'contests'), contests, 'contest');
		checkRotation(scope, style.rotation, at(path, 'rotation'), own);
	});
}

/** A list of ids, none twice, each of something in the file. Gives those that it holds. */
function checkNamesOf(
	{ report }: Scope,
	value: unknown,
	path: string,
	ids: ReadonlySet<string> | undefined,
	what: string
): ReadonlySet<string> {
	const seen = new Set<string>();
	list(report, value, path, 1).forEach((entry, i) => {
		const id = identifier(report, entry, at(path, i));
		unique(report, seen, id, at(path, i));
		known(report, ids, id, at(path, i), what);
	});
	return seen;
}

function checkRotation({ report }: Scope, value: unknown, path: string, contests: ReadonlySet<string>): void {
	const rotation = object(report, value, path);
	if (!rotation) return;
	for (const [contest, places] of Object.entries(rotation)) {
		if (!contests.has(contest))
			report.add(at(path, contest), 'a contest of this style', places, 'Remove it, or add the contest to the style.');
		whole(report, places, at(path, contest), 0, MOST_PLACES);
	}
}
