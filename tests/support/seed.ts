import fc from 'fast-check';

/**
 * Properties are tried with the same values in every run, so that a run can be repeated and what is red was made red by a
 * change. FAIRHAND_SEED=random tries others (a failure prints its seed), and a number those of that seed.
 */
const asked = process.env['FAIRHAND_SEED'];
if (asked !== 'random') fc.configureGlobal({ seed: Number(asked ?? 20270914) });
