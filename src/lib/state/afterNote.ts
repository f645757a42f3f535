/** What belongs to a note and may follow its words (loupe, neighbours that make room) waits so long. Found by trial. */
export const AFTER_WORDS_MS = 60;

/**
 * All that changes beside a note makes it come later, so what the eye does not miss waits so long after a mark: the note
 * has been painted by then. Found by trial.
 */
export const AFTER_NOTE_MS = 150;
