/**
 * All that changes beside a note makes it come later, so what the eye does not miss waits so long after a mark: the note
 * has been painted by then. Found by trial.
 */
export const AFTER_NOTE_MS = 150;
