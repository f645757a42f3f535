import type { i18n as I18n } from 'i18next';
import { headline } from '$core/advice/headline';
import { machineSays } from '$core/advice/machineSays';
import { peopleSay } from '$core/advice/peopleSay';
import type { GalleryContest, GalleryPicture } from '$core/answers/gallery';
import { inkOf, readPicture, type GalleryNames, type GallerySheet } from '$core/answers/galleryPages';
import type { Election } from '$core/election/election';
import { contains } from '$core/geometry';
import { PT_PER_MM } from '$core/image';
import { NIB_MM, type Mishap, type PageInk, type Stroke, type StrokePoint } from '$core/ink/stroke';
import { drawPage } from '$core/layout/draw';
import { unframed } from '$core/layout/unframed';
import type { Rulebook } from '$core/rules/rule';
import { signOf } from '$lib/notes/signOf';
import { wordsOf } from '$lib/notes/words';

/** A line of a picture: ink by its tool, or what happened to the paper. */
export interface PictureLine {
	readonly look: Stroke['tool'] | Mishap['kind'] | 'stain-rim';
	/** SVG path data in points of the page. */
	readonly d: string;
	readonly widthPt: number;
}

/** A picture as a page shows it, with what the reader says of the very ink that is drawn. */
export interface ShownPicture {
	readonly id: string;
	readonly contest: GalleryContest;
	/** Id of the answer to the question it asks. */
	readonly answer: string;
	readonly lines: readonly PictureLine[];
	readonly head: string;
	readonly tone: 'calm' | 'look';
	readonly sign: ReturnType<typeof signOf>;
	readonly machine: readonly string[];
	readonly people: readonly string[];
	/** The clauses that decide it, as they are cited. */
	readonly cites: readonly string[];
}

/** A made-up contest as it is printed, without its page around it. */
export interface ShownSheet {
	readonly contest: GalleryContest;
	readonly viewBox: string;
	/** SVG of our own core, without its frame. */
	readonly svg: string;
}

/** The names on the made-up contests, in the language of `i18n`. */
export function galleryNames(i18n: I18n, language: string): GalleryNames {
	const name = (key: string) => ({ [language]: i18n.t(`answers.gallery.${key}`) });
	return {
		title: name('example'),
		measure: name('measure'),
		a: name('a'),
		b: name('b'),
		c: name('c'),
		yes: name('yes'),
		no: name('no'),
		writeIn: name('writeIn')
	};
}

/**
 * Draws a picture and has it read. Undefined where no answer of the election is to its question: it would lead nowhere.
 * The points are rounded first, so that the reader gets exactly what is drawn.
 */
export function showPicture(
	picture: GalleryPicture,
	sheet: GallerySheet,
	election: Election,
	rulebook: Rulebook,
	i18n: I18n,
	language: string
): ShownPicture | undefined {
	const answer = election.answers.find(({ questions }) => questions.includes(picture.question));
	if (!answer) return undefined;
	const ink = rounded(inkOf(picture, sheet));
	const reading = readPicture(ink, sheet, rulebook);
	const words = wordsOf(i18n, language, sheet.election, sheet.contest);
	const head = headline(reading, sheet.contest);
	const { when, decide } = peopleSay(reading);
	return {
		id: picture.id,
		contest: picture.contest,
		answer: answer.id,
		lines: [...ink.strokes.map(lineOf), ...(ink.mishaps ?? []).flatMap((mishap) => linesOf(mishap, sheet))],
		head: words.say('reading.headline', head),
		tone: head.tone,
		sign: signOf(head),
		machine: machineSays(reading, sheet.contest).map((sentence) => words.say('reading.machine', sentence)),
		people: [when, ...(decide ? [decide] : [])].map((sentence) => words.say('reading.people', sentence)),
		cites: [...new Set(reading.people.clauses.map(({ cite }) => cite))]
	};
}

/** What is printed in the part of the page that pictures show. */
export function showSheet(contest: GalleryContest, { layout, page, view }: GallerySheet): ShownSheet {
	const texts = page.texts.filter(({ x, y }) => contains(view, { x, y }));
	const rules = page.rules.filter(({ x1, y1 }) => contains(view, { x: x1, y: y1 }));
	const svg = drawPage({ ...layout, pages: [{ ...page, texts, rules }] }, 1, { withoutPaper: true });
	return {
		contest,
		viewBox: [view.x, view.y, view.width, view.height].map((part) => part.toFixed(1)).join(' '),
		svg: unframed(svg)
	};
}

const hundredth = (value: number): number => Math.round(value * 100) / 100;

function rounded(ink: PageInk): PageInk {
	return {
		...ink,
		strokes: ink.strokes.map((stroke) => ({
			...stroke,
			points: stroke.points.map(([x, y]): StrokePoint => [hundredth(x), hundredth(y)])
		}))
	};
}

/** The points themselves, joined by straight lines: `strokeOf` in the tests turns it back. */
function lineOf({ tool, points, widthMm }: Stroke): PictureLine {
	const [head = [0, 0], ...rest] = points;
	// A dot is a line of no length with a round end.
	const line = rest.length > 0 ? rest : [head];
	return {
		look: tool,
		d: `M${head[0]} ${head[1]}${line.map(([x, y]) => `L${x} ${y}`).join('')}`,
		widthPt: hundredth((widthMm ?? NIB_MM[tool]) * PT_PER_MM)
	};
}

/** For the eye only, as on the practice sheet: the reader draws its own. */
function linesOf(mishap: Mishap, { view }: GallerySheet): readonly PictureLine[] {
	switch (mishap.kind) {
		case 'stain': {
			const { x, y, radiusPt: r } = mishap;
			const d = `M${x - r} ${y}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0z`;
			return [
				{ look: 'stain', d, widthPt: 0 },
				{ look: 'stain-rim', d, widthPt: 3 }
			];
		}
		case 'smudge': {
			const { x, y, dx, dy } = mishap;
			return [-3, -1, 1, 3].map((aside) => ({
				look: 'smudge',
				d: `M${x} ${hundredth(y + aside)}l${dx} ${dy}`,
				widthPt: 2.4
			}));
		}
		case 'fold':
			return [{ look: 'fold', d: `M${view.x} ${mishap.at}h${view.width}`, widthPt: 1 }];
		case 'bleed':
			return mishap.strokes.map((stroke) => ({ ...lineOf(stroke), look: 'bleed' as const }));
	}
}
