import encodeQR from 'qr';
import type { CodeModules } from '../core/sheet/signs';

/** The modules of a QR code that holds `text`; up to 15 % of it may be dirty or torn. */
export function encodeCode(text: string): CodeModules {
	// The library will not leave the quiet zone out.
	const framed = encodeQR(text, 'raw', { ecc: 'medium', border: 1 });
	return framed.slice(1, -1).map((row) => row.slice(1, -1));
}
