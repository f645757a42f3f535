/** What a file is, by how it begins: names and types that a browser reports are often wrong. */
export type FileKind = 'jpeg' | 'png' | 'webp' | 'heic' | 'pdf' | 'other';

/** What the beginning of a picture says about all of it. */
export interface PictureHeader {
	readonly kind: FileKind;
	/** Size of the picture as it is shown, turned the right way; undefined where the beginning does not say. */
	readonly size: { readonly width: number; readonly height: number } | undefined;
}

/** Brands of the container that phones save HEIC in (ISO/IEC 23008-12, annex B). AVIF uses it too, with brands of its own. */
const HEIC_BRANDS: readonly string[] = ['heic', 'heix', 'heim', 'heis', 'hevc', 'hevx', 'hevm', 'hevs', 'mif1', 'msf1'];

/** Reads the beginning of a file. `bytes` may end anywhere. */
export function readHeader(bytes: Uint8Array): PictureHeader {
	const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
	const text = (from: number, length: number): string => String.fromCharCode(...bytes.subarray(from, from + length));
	if (bytes[0] === 0xff && bytes[1] === 0xd8) return { kind: 'jpeg', size: sizeOfJpeg(view) };
	if (text(0, 4) === '\x89PNG') return { kind: 'png', size: sizeAt(view, 16, 20, 4) };
	if (text(0, 4) === 'RIFF' && text(8, 4) === 'WEBP') return { kind: 'webp', size: sizeOfWebp(view, text(12, 4)) };
	if (text(4, 4) === 'ftyp') return { kind: isHeic(bytes, text) ? 'heic' : 'other', size: undefined };
	if (text(0, 5) === '%PDF-') return { kind: 'pdf', size: undefined };
	return { kind: 'other', size: undefined };
}

function isHeic(bytes: Uint8Array, text: (from: number, length: number) => string): boolean {
	const end = Math.min(bytes.length, ((bytes[2] ?? 0) << 8) | (bytes[3] ?? 0));
	const brands: string[] = [];
	for (let at = 8; at + 4 <= end; at += at === 8 ? 8 : 4) brands.push(text(at, 4));
	return !brands.includes('avif') && brands.some((brand) => HEIC_BRANDS.includes(brand));
}

function sizeAt(view: DataView, widthAt: number, heightAt: number, bytes: 2 | 4): PictureHeader['size'] {
	if (Math.max(widthAt, heightAt) + bytes > view.byteLength) return undefined;
	return bytes === 4
		? { width: view.getUint32(widthAt), height: view.getUint32(heightAt) }
		: { width: view.getUint16(widthAt), height: view.getUint16(heightAt) };
}

/** Walks the segments to the frame's header (ITU-T T.81, annex B), and takes the turn from Exif on the way. */
function sizeOfJpeg(view: DataView): PictureHeader['size'] {
	let turn = 1;
	for (let at = 2; at + 4 <= view.byteLength;) {
		if (view.getUint8(at) !== 0xff) return undefined;
		const marker = view.getUint8(at + 1);
		if (marker === 0xff) {
			at += 1;
			continue;
		}
		const isFrame = marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker);
		if (isFrame) {
			const size = sizeAt(view, at + 7, at + 5, 2);
			return size && turn >= 5 ? { width: size.height, height: size.width } : size;
		}
		if (marker === 0xda) return undefined;
		if (marker === 0xe1) turn = turnOf(view, at + 4) ?? turn;
		at += 2 + view.getUint16(at + 2);
	}
	return undefined;
}

/** Tag 0x0112 of the first directory (Exif 2.32, 4.6.4): from 5 on, width and height change places. */
function turnOf(view: DataView, at: number): number | undefined {
	if (at + 14 > view.byteLength || view.getUint32(at) !== 0x45786966) return undefined;
	const start = at + 6;
	const little = view.getUint16(start) === 0x4949;
	const directory = start + view.getUint32(start + 4, little);
	if (directory + 2 > view.byteLength) return undefined;
	const entries = view.getUint16(directory, little);
	for (let i = 0; i < entries; i++) {
		const entry = directory + 2 + 12 * i;
		if (entry + 12 > view.byteLength) return undefined;
		if (view.getUint16(entry, little) === 0x0112) return view.getUint16(entry + 8, little);
	}
	return undefined;
}

/** The three forms of WebP keep their size in three places (RFC 9649). */
function sizeOfWebp(view: DataView, form: string): PictureHeader['size'] {
	if (view.byteLength < 30) return undefined;
	const of = (width: number, height: number) => ({ width, height });
	if (form === 'VP8X')
		return of(
			1 + view.getUint16(24, true) + (view.getUint8(26) << 16),
			1 + view.getUint16(27, true) + (view.getUint8(29) << 16)
		);
	if (form === 'VP8 ') return of(view.getUint16(26, true) & 0x3fff, view.getUint16(28, true) & 0x3fff);
	if (form === 'VP8L') {
		const bits = view.getUint32(21, true);
		return of(1 + (bits & 0x3fff), 1 + ((bits >> 14) & 0x3fff));
	}
	return undefined;
}
