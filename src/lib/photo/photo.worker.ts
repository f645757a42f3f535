import { decodeCode } from '../../codes/decodeCode';
import { encodeCode } from '../../codes/encodeCode';
import type { GreyImage } from '$core/image';
import { provideOutlines } from '$core/layout/font/glyph';
import { PhotoSheets } from '$core/photo/photoSheets';
import { decodeFile, FileRefused, greyOfPicture } from './decodePicture';
import { guideOf } from './guide';
import type { Answer, Picture, Question } from './messages';
import { readPhoto } from './readPhoto';

let sheets: PhotoSheets | undefined;

self.onmessage = ({ data }: MessageEvent<Question>) => {
	answer(data).catch((error: unknown) => {
		const { number } = data;
		if (error instanceof FileRefused) send({ kind: 'read', number, result: { refused: error.reason } });
		else send({ kind: 'failed', number, message: error instanceof Error ? error.message : String(error) });
	});
};

async function answer(question: Question): Promise<void> {
	const { number } = question;
	if (question.kind === 'open') {
		provideOutlines(question.outlines);
		sheets = new PhotoSheets(question.setup, { encode: encodeCode, decode: decodeCode });
		send({ kind: 'opened', number, canvas: hasCanvas() });
		return;
	}
	if (!sheets) throw new Error(`photo.worker: expected "open" first, got "${question.kind}"`);
	const opened = sheets;
	if (question.kind === 'look') {
		const frame = await greyOf(question.frame);
		const { finer } = question;
		send({
			kind: 'looked',
			number,
			guide: guideOf(frame, { sheetOf: (code) => opened.sheetOf(code), decode: decodeCode, finer })
		});
		return;
	}
	send({ kind: 'step', number, step: 'open' });
	const photo = await greyOf(question.photo);
	const result = readPhoto(photo, opened, question.before, (step) => {
		send({ kind: 'step', number, step });
	});
	send({ kind: 'read', number, result }, 'image' in result ? [result.image.data.buffer] : []);
}

async function greyOf(picture: Picture): Promise<GreyImage> {
	if (picture instanceof Blob) return decodeFile(picture, makeCanvas);
	if (!(picture instanceof ImageBitmap)) return picture;
	try {
		return greyOfPicture(picture, makeCanvas);
	} finally {
		picture.close();
	}
}

const makeCanvas = (width: number, height: number): OffscreenCanvas => new OffscreenCanvas(width, height);

/** Older browsers have no canvas in a worker: the page then opens the pictures. */
function hasCanvas(): boolean {
	try {
		return typeof createImageBitmap === 'function' && new OffscreenCanvas(1, 1).getContext('2d') !== null;
	} catch {
		return false;
	}
}

function send(message: Answer, transfer: Transferable[] = []): void {
	self.postMessage(message, { transfer });
}
