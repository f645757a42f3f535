import { PAGE_DPI } from '../image';
import { slopesAt, type Homography } from './homography';

/** Pixels of the photo to an inch of the page, by area, at a place of the page. */
export function dpiAt(view: Homography, x: number, y: number): number {
	const [a, b, c, d] = slopesAt(view, x, y);
	return PAGE_DPI * Math.sqrt(Math.abs(a * d - b * c));
}

/** The angle from straight above that makes one direction look as much shorter than the other, in degrees. */
export function slantAt(view: Homography, x: number, y: number): number {
	const [a, b, c, d] = slopesAt(view, x, y);
	const sum = a * a + b * b + c * c + d * d;
	const area = Math.abs(a * d - b * c);
	const root = Math.sqrt(Math.max(0, sum * sum - 4 * area * area));
	return (Math.acos(Math.sqrt((sum - root) / (sum + root))) * 180) / Math.PI;
}
