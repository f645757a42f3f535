import type { Box } from '../../core/geometry';
import { BadUsage } from '../failures';
import { electionOf, languagesOf, layoutOf, styleOf } from '../files';
import { optionsOf } from '../options';
import { print } from '../print';

/** `layout`: where everything is on the pages of a ballot style, in points from the top left. */
export function layout(args: readonly string[]): number {
	const { files, values, flags } = optionsOf(args, ['election', 'style', 'languages'], ['large']);
	if (files.length > 0) throw new BadUsage(`layout: expected no file, got ${files.length}; use --election FILE`);
	const election = electionOf(values['election']);
	const style = styleOf(election, values['style']);
	const languages = languagesOf(election, values['languages']);
	const { pages } = layoutOf(election, style, languages, flags.has('large') ? 'large' : 'ordinary');
	print({
		election: election.id,
		style,
		pages: pages.map(({ page, widthPt, heightPt, contests, choices }) => ({
			page,
			width: widthPt,
			height: heightPt,
			contests: contests.map(({ contest, box, voteFor }) => ({ contest, box: tuple(box), voteFor })),
			choices: choices.map(({ contest, choice, row, target, name, writeIn, rank }) => ({
				contest,
				choice,
				row: tuple(row),
				target: tuple(target),
				name: tuple(name),
				...(writeIn ? { writeIn: tuple(writeIn) } : {}),
				...(rank === undefined ? {} : { rank })
			}))
		}))
	});
	return 0;
}

/** A box as `[x, y, width, height]`, in thousandths of a point: finer than any target needs, free of float noise. */
export function tuple({ x, y, width, height }: Box): readonly [number, number, number, number] {
	const short = (value: number): number => Math.round(value * 1000) / 1000;
	return [short(x), short(y), short(width), short(height)];
}
