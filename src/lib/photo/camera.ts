import { LONGEST_PX } from './decodePicture';

/** Why there is no camera. The section `paper.camera` of the locale files has words for each. */
export type NoCamera = 'missing' | 'denied' | 'busy';

/** Asked for, not demanded: a camera gives what it has. */
const WIDE_PX = 1920;
const HIGH_PX = 1440;

/**
 * Longer sides of a frame that is only looked at. The second is for a frame in which nothing was found: a small code may
 * be lost in one size and there in another.
 */
export const FRAMES_PX = [1280, 1600] as const;

const STOPS: Readonly<Record<string, NoCamera>> = {
	NotAllowedError: 'denied',
	SecurityError: 'denied',
	NotReadableError: 'busy',
	AbortError: 'busy'
};

/** Opens the camera that looks away from the voter. */
export async function openCamera(): Promise<MediaStream | NoCamera> {
	// Not there on a page that came without https.
	if (!('mediaDevices' in navigator)) return 'missing';
	try {
		return await navigator.mediaDevices.getUserMedia({
			audio: false,
			video: { facingMode: 'environment', width: { ideal: WIDE_PX }, height: { ideal: HIGH_PX } }
		});
	} catch (error) {
		return (error instanceof DOMException && STOPS[error.name]) || 'missing';
	}
}

export function closeCamera(stream: MediaStream): void {
	for (const track of stream.getTracks()) track.stop();
}

/** What the video shows now, small enough to be looked at several times a second. */
export async function frameOf(video: HTMLVideoElement, longestPx: number): Promise<ImageBitmap> {
	const scale = longestPx / longestOf(video);
	return scale < 1
		? createImageBitmap(video, { resizeWidth: Math.round(video.videoWidth * scale), resizeQuality: 'high' })
		: createImageBitmap(video);
}

const longestOf = ({ videoWidth, videoHeight }: HTMLVideoElement): number => Math.max(videoWidth, videoHeight);

interface StillCamera {
	takePhoto(): Promise<Blob>;
	getPhotoCapabilities(): Promise<{ readonly imageWidth?: { readonly max?: number } }>;
}
type StillCameraOf = new (track: MediaStreamTrack) => StillCamera;

const stillCamera = (): StillCameraOf | undefined => (globalThis as { ImageCapture?: StillCameraOf }).ImageCapture;

/** Longer side of the photo that will be read. A still photo is finer than the video. */
export async function photoLongestPx(video: HTMLVideoElement, stream: MediaStream): Promise<number> {
	const [track] = stream.getVideoTracks();
	const Still = stillCamera();
	let most = 0;
	if (track && Still)
		try {
			most = (await new Still(track).getPhotoCapabilities()).imageWidth?.max ?? 0;
		} catch {
			// Some cameras can only film.
		}
	return Math.min(LONGEST_PX, Math.max(most, longestOf(video)));
}

/** How many pixels of a photo come to one of a frame, along a side. */
export const finerOf = (photoPx: number, frame: ImageBitmap): number => photoPx / Math.max(frame.width, frame.height);

/** A photo at the camera's full size where the browser can take one, else the video's picture of this moment. */
export async function takePhoto(video: HTMLVideoElement, stream: MediaStream): Promise<Blob | ImageBitmap> {
	const [track] = stream.getVideoTracks();
	const Still = stillCamera();
	if (track && Still)
		try {
			return await new Still(track).takePhoto();
		} catch {
			// Some cameras can only film.
		}
	return createImageBitmap(video);
}
