import { encodeCode } from '../../src/codes/encodeCode';
import type { GreyImage } from '../../src/core/image';
import type { Layout, PageLayout, RuleLine, TextLine } from '../../src/core/layout/layout';
import { printPage } from '../../src/core/page/printPage';
import { grainAt, randomFrom } from '../../src/core/random';
import { printSolidsInPlace } from '../../src/core/sheet/printSheet';
import { signsOf, type Solid } from '../../src/core/sheet/signs';

/** What people might hold in front of the camera that is no practice sheet of ours. */
export const OTHER_PAGES = ['form', 'letter', 'face', 'blank', 'official-looking ballot', 'another code'] as const;
export type OtherPage = (typeof OTHER_PAGES)[number];

const PAGE = { widthPt: 612, heightPt: 792 };
const FINE_PX_PER_PT = 400 / 72;
/** Syllables of no language: invented words, so that nobody's name comes out. */
const SYLLABLES = ['ba', 'dor', 'el', 'fin', 'gra', 'hol', 'im', 'ka', 'lun', 'mer', 'no', 'ost', 'pri', 'sal', 'tev'];

type Random = () => number;

/** A page of the given kind at 400 dpi, as the camera of the tests takes it. The same seed gives the same page. */
export function otherPage(kind: OtherPage, seed: number): GreyImage {
	const random = randomFrom(seed * 53 + 11);
	const drawn = PAGES[kind](random);
	const image = print(drawn.texts ?? [], drawn.rules ?? []);
	printSolidsInPlace(image, drawn.solids ?? [], FINE_PX_PER_PT);
	return image;
}

/** A scan of it: shrunk to 200 dpi, unevenly lit and grainy. */
export function scanOf({ width, height, data }: GreyImage, seed: number): GreyImage {
	const [wide, high] = [width >> 1, height >> 1];
	const random = randomFrom(seed + 77);
	const [light, slope, grain] = [0.5 + 0.5 * random(), 0.4 * random(), 14 * random()];
	const scan = new Uint8Array(wide * high);
	for (let y = 0; y < high; y++)
		for (let x = 0; x < wide; x++) {
			const at = 2 * y * width + 2 * x;
			const grey = (data[at]! + data[at + 1]! + data[at + width]! + data[at + width + 1]!) / 4;
			scan[y * wide + x] = Math.max(
				0,
				Math.min(255, grey * light * (1 - (slope * x) / wide) + grain * grainAt(x, y, seed))
			);
		}
	return { width: wide, height: high, data: scan };
}

interface Drawn {
	readonly texts?: readonly TextLine[];
	readonly rules?: readonly RuleLine[];
	readonly solids?: readonly Solid[];
}

const PAGES: Readonly<Record<OtherPage, (random: Random) => Drawn>> = {
	form: (random) => {
		const rows = 8 + Math.floor(14 * random());
		const high = 640 / rows;
		return {
			texts: [
				line(words(3, random), 60, 70, 18, 'bold'),
				...Array.from({ length: rows }, (_, i) => line(words(2, random), 64, 100 + i * high + 12, 9))
			],
			rules: Array.from({ length: rows }, (_, i) => frame(60, 100 + i * high, 490, high * 0.85)).flat(),
			solids: Array.from({ length: rows }, (_, i) => (random() < 0.5 ? [box(530, 104 + i * high, 8, 8)] : [])).flat()
		};
	},
	letter: (random) => ({
		texts: Array.from({ length: 20 + Math.floor(30 * random()) }, (_, i) =>
			line(words(5 + Math.floor(4 * random()), random), 72, 90 + 14 * i, 11)
		)
	}),
	face: (random) => {
		const [x, y, r] = [200 + 200 * random(), 250 + 200 * random(), 90 + 90 * random()];
		return {
			solids: [
				...ring(x, y, r, r * (1 + 0.3 * random()), 4),
				disc(x - r / 3, y - r / 4, r / (6 + 4 * random())),
				disc(x + r / 3, y - r / 4, r / (6 + 4 * random())),
				box(x - r / 3, y + r / 3, (2 * r) / 3, 3 + 8 * random()),
				box(x - 3, y - r / 10, 6, r / 4)
			]
		};
	},
	blank: () => ({}),
	'official-looking ballot': (random) => {
		const contests = 3 + Math.floor(4 * random());
		const high = 620 / contests;
		return {
			texts: [
				line('OFFICIAL BALLOT', 200, 60, 22, 'bold'),
				...Array.from({ length: contests }, (_, i) => [
					line(words(3, random), 70, 120 + i * high, 13, 'bold'),
					...Array.from({ length: 4 }, (__, k) => line(words(2, random), 100, 142 + i * high + 20 * k, 12))
				]).flat()
			],
			rules: Array.from({ length: contests }, (_, i) => frame(60, 104 + i * high, 490, high * 0.95)).flat(),
			solids: [
				...Array.from({ length: contests }, (_, i) =>
					Array.from({ length: 4 }, (__, k) => [
						...ring(82, 138 + i * high + 20 * k, 9, 4.5, 0.8),
						...(random() < 0.25 ? [disc(82, 138 + i * high + 20 * k, 4)] : [])
					]).flat()
				).flat(),
				// Black squares in the corners and bars down the edge, for a machine to find the page by.
				...[24, 570].flatMap((x) => [24, 750].map((y) => box(x, y, 18, 18))),
				...Array.from({ length: 40 }, (_, i) => box(30, 60 + 17 * i, 14, 5))
			]
		};
	},
	// A code of somebody else's where ours would stand, corner marks and all.
	'another code': (random) => ({
		texts: Array.from({ length: 24 }, (_, i) => line(words(6, random), 72, 110 + 18 * i, 12)),
		solids: signsOf(
			{ page: 1, ...PAGE, foldsPt: [], contests: [], choices: [], texts: [], rules: [] },
			encodeCode(`HTTPS://EXAMPLE.ORG/${Math.floor(1e6 * random())}`)
		)
	})
};

/** Texts and rules through the printer of the app, twice as large. */
function print(texts: readonly TextLine[], rules: readonly RuleLine[]): GreyImage {
	const twice = 2;
	const page: PageLayout = {
		page: 1,
		widthPt: PAGE.widthPt * twice,
		heightPt: PAGE.heightPt * twice,
		foldsPt: [],
		contests: [],
		choices: [],
		texts: texts.map((text) => ({ ...text, x: text.x * twice, y: text.y * twice, sizePt: text.sizePt * twice })),
		rules: rules.map((rule) => ({
			...rule,
			x1: rule.x1 * twice,
			y1: rule.y1 * twice,
			x2: rule.x2 * twice,
			y2: rule.y2 * twice,
			widthPt: rule.widthPt * twice
		}))
	};
	return printPage({ shape: 'oval', side: 'left', pages: [page] } as unknown as Layout, 1);
}

function words(count: number, random: Random): string {
	const word = () =>
		Array.from({ length: 1 + Math.floor(3 * random()) }, () => SYLLABLES[Math.floor(random() * SYLLABLES.length)]).join(
			''
		);
	const all = Array.from({ length: count }, word).join(' ');
	return all.charAt(0).toUpperCase() + all.slice(1);
}

const line = (
	text: string,
	x: number,
	y: number,
	sizePt: number,
	weight: TextLine['weight'] = 'regular'
): TextLine => ({
	text,
	x,
	y,
	sizePt,
	weight,
	spacingPt: 0,
	language: 'en',
	role: 'name'
});

const frame = (x: number, y: number, width: number, height: number): RuleLine[] =>
	[
		[x, y, x + width, y],
		[x, y + height, x + width, y + height],
		[x, y, x, y + height],
		[x + width, y, x + width, y + height]
	].map(([x1, y1, x2, y2]) => ({ x1: x1!, y1: y1!, x2: x2!, y2: y2!, widthPt: 0.8, role: 'frame' }));

const box = (x: number, y: number, width: number, height: number): Solid =>
	Float64Array.of(x, y, x + width, y, x + width, y + height, x, y + height);

const around = (x: number, y: number, rx: number, ry: number): number[][] =>
	Array.from({ length: 48 }, (_, i) => {
		const angle = (2 * Math.PI * i) / 48;
		return [x + rx * Math.cos(angle), y + ry * Math.sin(angle)];
	});

const disc = (x: number, y: number, r: number): Solid => Float64Array.from(around(x, y, r, r).flat());

/** The line of an ellipse: short bars, one after the other. */
const ring = (x: number, y: number, rx: number, ry: number, widthPt: number): Solid[] => {
	const [outer, inner] = [around(x, y, rx, ry), around(x, y, rx - widthPt, ry - widthPt)];
	return outer.map((from, i) => {
		const next = (i + 1) % outer.length;
		return Float64Array.from([...from, ...outer[next]!, ...inner[next]!, ...inner[i]!]);
	});
};
