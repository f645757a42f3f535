import type { Election } from './election';
import countyFile from './files/county.json' with { type: 'json' };
import fairFile from './files/fair.json' with { type: 'json' };

// TypeScript widens the strings of imported JSON ("oval" becomes string), so the shape has to be asserted here;
// the tests prove it by running `check` and the JSON schema over both files.

/** An invented county's September primary: three ballot styles, two parties in one part of the county. */
export const county = countyFile as unknown as Election;

/** A neutral ballot for events: pies, parks, trees. One style. */
export const fair = fairFile as unknown as Election;
