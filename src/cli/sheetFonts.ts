import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { TEXT_CLASS } from '../core/layout/draw';

const FOLDER = fileURLToPath(
	new URL('../../node_modules/@fontsource/atkinson-hyperlegible-next/files/', import.meta.url)
);

/** The bundled font's files, and the characters that each has. */
const FILES = [
	{ subset: 'latin', range: 'U+0000-00FF,U+0131,U+0152-0153,U+2000-206F,U+20AC,U+2122' },
	{ subset: 'latin-ext', range: 'U+0100-0130,U+0132-0151,U+0154-02FF,U+1E00-1EFF' }
] as const;
const WEIGHTS = [400, 700] as const;

/** A drawn sheet with the font that it was measured with, so that it prints the same on a machine without that font. */
export function withFonts(svg: string): string {
	return svg.replace(/<svg[^>]*>/, (open) => `${open}<style>${fontStyle()}</style>`);
}

/** The style sheet that drawn sheets need, with the font in it. */
export function fontStyle(): string {
	const faces = FILES.flatMap(({ subset, range }) =>
		WEIGHTS.map((weight) => {
			const file = readFileSync(`${FOLDER}atkinson-hyperlegible-next-${subset}-${weight}-normal.woff2`);
			return `@font-face{font-family:'Atkinson Hyperlegible Next';font-weight:${weight};unicode-range:${range};src:url(data:font/woff2;base64,${file.toString('base64')}) format('woff2')}`;
		})
	);
	return `${faces.join('')}.${TEXT_CLASS}{font-kerning:none;font-variant-ligatures:none}`;
}
