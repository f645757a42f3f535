import type { Paragraph } from '$core/answers/answerOn';
import type { AnswerSubject } from '$core/election/election';

/** Paragraphs that follow one another and speak of the same. */
export interface ParagraphGroup {
	readonly about: AnswerSubject;
	readonly paragraphs: readonly Paragraph[];
}

/** The paragraphs in their order, those about the same put under one label. */
export function groupParagraphs(paragraphs: readonly Paragraph[]): readonly ParagraphGroup[] {
	return paragraphs.reduce<readonly ParagraphGroup[]>((groups, paragraph) => {
		const last = groups.at(-1);
		if (last?.about !== paragraph.about) return [...groups, { about: paragraph.about, paragraphs: [paragraph] }];
		return [...groups.slice(0, -1), { ...last, paragraphs: [...last.paragraphs, paragraph] }];
	}, []);
}
