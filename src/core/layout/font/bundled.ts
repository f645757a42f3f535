import { provideOutlines } from './glyph';
import outlines from './outlines.json' with { type: 'json' };

// For the command line, tests and benchmarks: the font is there as soon as this is imported.
provideOutlines(outlines);
