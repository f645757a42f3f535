import { check, type Installed } from './check';
import { STAGES } from './checkInstructions';
import type { CorrectionMethod, Election, Instructions, PageSetup, Problem, Stage, Text } from './election';
import { jsonFault } from './jsonFault';

/** Most characters of an election file that are looked at: some hundred times the demo county's. */
const LONGEST_FILE = 16 * 1024 * 1024;

/** `election` is there when no problem is an `error`. */
export interface ParsedElection {
	readonly election?: Election;
	readonly problems: readonly Problem[];
}

/**
 * An election file from its text, with every problem found. Text that is not JSON is one problem, with its line and
 * column. Answers on corrections that the file leaves open come out as `undecided`, with no steps; folds that it does
 * not name as those of a sheet folded in three. `installed` is what it may name besides, where the caller knows.
 */
export function parseElection(text: string, installed?: Installed): ParsedElection {
	if (text.length > LONGEST_FILE) {
		const message = `The file is longer than ${LONGEST_FILE} characters. Check that it is an election file.`;
		return refused(`at most ${LONGEST_FILE} characters`, String(text.length), message);
	}
	// A byte order mark is no part of the text; some editors write one.
	const json = text.startsWith('\uFEFF') ? text.slice(1) : text;
	let document: unknown;
	try {
		document = JSON.parse(json);
	} catch {
		const where = ` at ${placeOf(json, jsonFault(json) ?? 0)}`;
		const message = `The file is not JSON${where}. Correct it there: look for a missing comma, quote or bracket.`;
		return refused('a JSON document', `text that is not JSON${where}`, message);
	}
	const problems = check(document, installed);
	if (problems.some(({ severity }) => severity === 'error')) return { problems };
	return { election: complete(document as Draft), problems };
}

const refused = (expected: string, received: string, message: string): ParsedElection => ({
	problems: [{ path: '', expected, received, severity: 'error', message }]
});

function placeOf(text: string, offset: number): string {
	const before = text.slice(0, offset).split('\n');
	return `line ${before.length}, column ${(before.at(-1)?.length ?? 0) + 1}`;
}

interface DraftCorrection {
	readonly method?: CorrectionMethod | '';
	readonly steps?: Partial<Record<Stage, readonly Text[]>>;
	readonly cite?: string;
	readonly invented?: boolean;
}

/** What `check` lets pass: an election whose correction may be open, on paper whose folds may be left out. */
type Draft = Omit<Election, 'instructions' | 'page'> & {
	readonly instructions: Omit<Instructions, 'correction'> & { readonly correction?: DraftCorrection };
	readonly page: Omit<PageSetup, 'foldsAt'> & Partial<Pick<PageSetup, 'foldsAt'>>;
};

/** A letter sheet goes into its envelope folded in three. */
const FOLDED_IN_THREE: readonly number[] = [1 / 3, 2 / 3];

function complete(draft: Draft): Election {
	const { method, steps, cite, ...rest } = draft.instructions.correction ?? {};
	const filled = Object.fromEntries(STAGES.map((stage) => [stage, steps?.[stage] ?? []]));
	const correction = {
		...rest,
		method: method === undefined || method === '' ? ('undecided' as const) : method,
		steps: filled as Readonly<Record<Stage, readonly Text[]>>,
		cite: cite ?? ''
	};
	return {
		...draft,
		instructions: { ...draft.instructions, correction },
		page: { ...draft.page, foldsAt: draft.page.foldsAt ?? FOLDED_IN_THREE }
	};
}
