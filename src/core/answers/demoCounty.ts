import { county } from '../election/demo';
import type { Answer, Election, Passage } from '../election/election';
import ledgerFile from '../election/files/answers.county.json' with { type: 'json' };

// TypeScript widens the strings of imported JSON; the tests prove the shape by running `check` over the whole.
const ledger = ledgerFile as unknown as { readonly answers: readonly Answer[]; readonly passages: readonly Passage[] };

/**
 * The demo county with its answers. The ledger is larger than all the rest of the file, so the county's own file
 * leaves it out, and only pages that give answers load it.
 */
export const countyWithAnswers: Election = {
	...county,
	answers: ledger.answers,
	passages: [...(county.passages ?? []), ...ledger.passages]
};
