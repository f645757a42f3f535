import { describe, expect, test } from 'vitest';
import type { Mark } from '$core/marks/mark';
import { encodeMark, SURE_CONFIDENCE } from '$core/rules/markFacts';
import { PICTURES, readPicture, type ReadPicture } from './readPicture';
import { rolesOf } from './sheets';

const NOWHERE: ReadonlySet<string> = new Set();

interface Seen {
	readonly kind: string;
	readonly place: string;
	readonly also: readonly string[];
}

/** The marks of a contest by role (and rank, on a ranked contest). */
function seenIn({ contest, pages }: ReadPicture): ReadonlyMap<string, readonly Seen[]> {
	const roleOf = new Map([...rolesOf(contest)].map(([role, id]) => [id, role]));
	const seen = new Map<string, Seen[]>();
	const nameOf = (choice: string | undefined, rank?: number) => `${roleOf.get(choice ?? '') ?? 'none'}${rank ?? ''}`;
	for (const { kind, place, choice, rank, alsoTouches = [] } of marksOf({ contest, pages })) {
		const role = nameOf(choice, rank);
		seen.set(role, [...(seen.get(role) ?? []), { kind, place, also: alsoTouches.map((other) => nameOf(other)) }]);
	}
	return seen;
}

const marksOf = ({ contest, pages }: Pick<ReadPicture, 'contest' | 'pages'>): readonly Mark[] =>
	pages.flatMap(({ marks }) => marks).filter((mark) => mark.contest === contest.id);

/** Whether a mark is what "fill|scribble in-target +B" says. */
function fits(spec: string, { kind, place, also }: Seen): boolean {
	const [kinds = '', where, touched = ''] = spec.split(' ');
	return kinds.split('|').includes(kind) && place === where && also.join('+') === touched.replace('+', '');
}

describe.each(Object.keys(PICTURES))('the picture %s', (name) => {
	const { sees, levels = {}, fills = {}, margin, meaning, words, isUnsure = false } = PICTURES[name]!;

	test(`is read as what it shows: ${meaning}`, () => {
		const seen = seenIn(readPicture(name));
		const told = JSON.stringify([...seen]);
		expect([...seen.keys()].sort(), told).toEqual(Object.keys(sees).sort());
		for (const [role, specs] of Object.entries(sees)) {
			expect(seen.get(role), told).toHaveLength(specs.length);
			for (const spec of specs)
				expect(
					seen.get(role)?.some((one) => fits(spec, one)),
					`${role} ${spec}: ${told}`
				).toBe(true);
		}
	});

	test(`has ${isUnsure ? 'a mark' : 'no mark'} of which the reader is not sure`, () => {
		const read = readPicture(name);
		const open = marksOf(read).filter(({ confidence }) => confidence < SURE_CONFIDENCE);
		expect(open.length > 0, open.map(({ kind, place }) => `${kind} ${place}`).join(', ')).toBe(isUnsure);
	});

	test('has the ink in its targets that it stands for', () => {
		const { contest, machine } = readPicture(name);
		const targetAt = (role: string) => {
			const found = machine.get(contest.id)?.targets.find(({ choice }) => choice === rolesOf(contest).get(role));
			if (!found) throw new Error(`expected a target at ${role}, found none`);
			return found;
		};
		expect(targetAt(rolesOf(contest).keys().next().value!)).toBeDefined();
		for (const [role, level] of Object.entries(levels)) expect(targetAt(role).level, role).toBe(level);
		for (const [role, [from, to]] of Object.entries(fills)) {
			expect(targetAt(role).fill, role).toBeGreaterThanOrEqual(from);
			expect(targetAt(role).fill, role).toBeLessThanOrEqual(to);
		}
	});

	test('has its words in marks that are handwriting', () => {
		const read = readPicture(name);
		const written = (words ? (name === 'same-name-twice' ? 2 : 1) : 0) + (margin ? 1 : 0);
		expect(read.words.size).toBe(written);
		const marks = read.pages.flatMap((page) => page.marks).filter(({ id }) => read.words.has(id));
		expect(marks.filter((mark) => encodeMark(mark, read, NOWHERE, false).handwriting)).toHaveLength(written);
	});
});

test('in a picture drawn everywhere, every contest that can show it has the same marks, and the others none', () => {
	for (const name of ['check-in-target', 'name-ringed', 'two-filled', 'written-target-empty', 'filled-unseen']) {
		const { pages, contest, sheet } = readPicture(name, { everywhere: true });
		const marksIn = (id: string) =>
			pages
				.flatMap(({ marks }) => marks)
				.filter((mark) => mark.contest === id)
				.map(({ kind, place }) => `${kind} ${place}`);
		for (const { id, kind } of sheet.contests)
			expect(marksIn(id), `${name} in ${id}`).toEqual(
				name === 'written-target-empty' && kind !== 'candidates' ? [] : marksIn(contest.id)
			);
	}
});
