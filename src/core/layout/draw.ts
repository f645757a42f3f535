import { widthOf } from './font/measure';
import type { ChoiceLayout, Layout, RuleLine, TextLine } from './layout';
import { targetOutline, type OutlineStroke } from './targetOutline';

export interface DrawOptions {
	/** Black on white, for a printer without colour: no paper tint and no brown. */
	readonly blackAndWhite?: boolean;
	/** Leaves the paper out, where the page around it already is paper. */
	readonly withoutPaper?: boolean;
}

/** The bundled font, and what stands in for it until it is there. */
export const FONT_FAMILY = "'Atkinson Hyperlegible Next', sans-serif";

/**
 * Class of the group that holds a page's texts. The style sheet around the SVG sets `font-kerning: none`
 * and `font-variant-ligatures: none` for it, for which SVG has no attributes; `textLength` holds each line
 * to its measured width even without that.
 */
export const TEXT_CLASS = 'sheet-text';

/**
 * Another font's letters are stretched to the width laid out for them; the bundled font's by less than 2 % (116 lines in
 * Chromium). Where only the spaces are held to a width, it draws each letter by itself in every frame, and a note came a
 * quarter later.
 */
const LENGTH_ADJUST = 'lengthAdjust="spacingAndGlyphs"';

const TINTED = { paper: '#fbf7ea', ink: '#1a2138', note: '#3d4560', band: '#6a5a2e', hairline: '#b9b09a' };
const PLAIN = { paper: '#ffffff', ink: '#000000', note: '#000000', band: '#000000', hairline: '#000000' };

type Colours = typeof TINTED;

/**
 * One page of a layout as an SVG document, in points. It holds presentation attributes only, so it needs
 * no inline style under a strict content security policy, and every text of the election file as text.
 * Throws a RangeError for a page that is not there.
 */
export function drawPage(layout: Layout, page: number, options: DrawOptions = {}): string {
	const { blackAndWhite = false, withoutPaper = false } = options;
	const found = layout.pages[page - 1];
	if (!found) throw new RangeError(`drawPage: expected a page from 1 to ${layout.pages.length}, got ${page}`);
	const { widthPt, heightPt } = found;
	const colours = blackAndWhite ? PLAIN : TINTED;
	const [main = 'en'] = layout.languages;
	return [
		`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${widthPt} ${heightPt}" lang="${escape(main)}">`,
		withoutPaper ? '' : `<rect width="${widthPt}" height="${heightPt}" fill="${colours.paper}"/>`,
		...found.rules.map((rule) => drawRule(rule, colours)),
		`<g fill="none" stroke="${colours.ink}" stroke-linecap="round" stroke-linejoin="round">`,
		...found.choices.map((choice) => drawTarget(layout, choice)),
		'</g>',
		`<g class="${TEXT_CLASS}" font-family="${FONT_FAMILY}">`,
		...found.texts.map((line) => drawText(line, main, colours)),
		'</g>',
		'</svg>'
	].join('\n');
}

function drawRule({ x1, y1, x2, y2, widthPt, role }: RuleLine, colours: Colours): string {
	const colour = role === 'frame' ? colours.hairline : colours.ink;
	return `<line x1="${short(x1)}" y1="${short(y1)}" x2="${short(x2)}" y2="${short(y2)}" stroke="${colour}" stroke-width="${short(widthPt)}"/>`;
}

function drawTarget({ shape, side }: Layout, { target }: ChoiceLayout): string {
	return targetOutline(shape, side, target)
		.map((stroke) => `<path d="${pathOf(stroke)}" stroke-width="${short(stroke.widthPt)}"/>`)
		.join('');
}

function pathOf({ points, closed }: OutlineStroke): string {
	const corners: string[] = [];
	for (let i = 0; i < points.length; i += 2) corners.push(`${short(points[i] ?? 0)} ${short(points[i + 1] ?? 0)}`);
	return `M${corners.join('L')}${closed ? 'Z' : ''}`;
}

function drawText(line: TextLine, main: string, colours: Colours): string {
	const { text, x, y, sizePt, weight, spacingPt, language, role } = line;
	const attributes = [
		`x="${short(x)}" y="${short(y)}" font-size="${short(sizePt)}"`,
		weight === 'bold' ? 'font-weight="700"' : 'font-weight="400"',
		spacingPt === 0 ? '' : `letter-spacing="${short(spacingPt)}"`,
		`fill="${colourOf(role, colours)}"`,
		language === main ? '' : `lang="${escape(language)}"`,
		// Browsers do not agree on the space after a spaced line's last letter, so such lines are left alone.
		spacingPt === 0 ? `textLength="${short(widthOf(text, weight, sizePt, 0))}" ${LENGTH_ADJUST}` : ''
	];
	return `<text ${attributes.filter((attribute) => attribute !== '').join(' ')}>${escape(text)}</text>`;
}

function colourOf(role: TextLine['role'], colours: Colours): string {
	if (role === 'practice') return colours.band;
	return role === 'note' || role === 'detail' || role === 'footer' ? colours.note : colours.ink;
}

/** Hundredths of a point are finer than any printer. */
function short(value: number): number {
	return Math.round(value * 1000) / 1000;
}

const ENTITIES: Readonly<Record<string, string>> = {
	'&': '&amp;',
	'<': '&lt;',
	'>': '&gt;',
	'"': '&quot;',
	"'": '&#39;'
};

/** Text as text: markup in it is printed, not obeyed. Characters that XML forbids become spaces. */
function escape(text: string): string {
	return text.replace(/[\p{Cc}\p{Cs}\ufffe\uffff]/gu, ' ').replace(/[&<>"']/g, (sign) => ENTITIES[sign] ?? sign);
}
