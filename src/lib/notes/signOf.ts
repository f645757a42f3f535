import type { Headline } from '$core/advice/headline';

/**
 * The sign beside a heading, each with its own shape: a filled oval (read), a half-filled one (may be
 * read), an empty one (nothing found or none read), a triangle (look again).
 */
export function signOf({ key, tone }: Headline): 'calm' | 'maybe' | 'empty' | 'look' {
	if (key === 'light' || key === 'partial') return 'maybe';
	if (tone === 'look') return 'look';
	return key === 'nothingFound' || key === 'noneRead' ? 'empty' : 'calm';
}
