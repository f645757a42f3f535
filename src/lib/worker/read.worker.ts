import type { Answer, Question } from './messages';
import { rehearse } from './rehearse';
import { Session } from './session';

/** Long enough for the page to paint a note. Found by trial. */
const AFTER_READING_MS = 100;

let session: Session | undefined;
let telling: ReturnType<typeof setTimeout> | undefined;

self.onmessage = ({ data }: MessageEvent<Question>) => {
	try {
		answer(data);
	} catch (error) {
		send({ kind: 'failed', number: data.number, message: error instanceof Error ? error.message : String(error) });
	}
};

function answer(question: Question): void {
	const { number } = question;
	const began = performance.now();
	if (question.kind === 'open') session = Session.open(question);
	if (!session) throw new Error(`read.worker: expected "open" first, got "${question.kind}"`);
	if (question.kind === 'foresee') {
		session.foresee(question.page, question.strokes);
		return;
	}
	if (question.kind === 'picture') {
		const picture = session.picture(question.page, question.window);
		send({ kind: 'picture', number, ...picture }, [picture.grey.buffer]);
		return;
	}
	if (question.kind === 'trace') {
		send({ kind: 'trace', number, trace: session.trace(question.contest) });
		return;
	}
	if (question.kind === 'add') session.add(question.page, question.strokes, question.mishaps);
	if (question.kind === 'set') session.set(question.pages);
	const reading = question.kind === 'add' ? session.readTouched() : session.read();
	send({ kind: 'read', number, reading: { ...reading, workMs: performance.now() - began } });
	const current = session;
	clearTimeout(telling);
	telling = setTimeout(() => {
		const { contests } = current.read();
		send({ kind: 'found', found: { contests, ...current.found() } });
	}, AFTER_READING_MS);
	if (question.kind === 'open') later(rehearse(session));
}

/** One step at a time, so that a question never waits for more than one. */
function later(rehearsal: Generator<void, void>): void {
	setTimeout(() => {
		if (!rehearsal.next().done) later(rehearsal);
	});
}

function send(message: Answer, transfer: Transferable[] = []): void {
	self.postMessage(message, { transfer });
}
