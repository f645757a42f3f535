import type { PackedOutlines } from '$core/layout/font/glyph';
import type { GreyImage } from '$core/image';
import type { PhotoSetup } from '$core/photo/photoSheets';
import type { Guide } from './guide';
import type { ReadBallot, RefusedPhoto, SeenBallot, Step } from './readPhoto';

/** A photo on its way to the worker. */
export type Picture = Blob | ImageBitmap | GreyImage;

/** What the page asks of the photo worker. Every question has a number; the answer carries it back. */
export type Question =
	| { readonly kind: 'open'; readonly number: number; readonly setup: PhotoSetup; readonly outlines: PackedOutlines }
	| {
			readonly kind: 'read';
			readonly number: number;
			readonly photo: Picture;
			readonly before: SeenBallot | undefined;
	  }
	/** One frame of the live camera. `finer`: pixels of the photo to one of the frame, along a side. */
	| { readonly kind: 'look'; readonly number: number; readonly frame: Picture; readonly finer: number };

export type Answer =
	/** `canvas`: whether this worker can open pictures itself. */
	| { readonly kind: 'opened'; readonly number: number; readonly canvas: boolean }
	| { readonly kind: 'step'; readonly number: number; readonly step: Step }
	| { readonly kind: 'read'; readonly number: number; readonly result: ReadBallot | RefusedPhoto }
	| { readonly kind: 'looked'; readonly number: number; readonly guide: Guide }
	| { readonly kind: 'failed'; readonly number: number; readonly message: string };
