/**
 * How far published answers to a question differ between offices. `V0`: the same nearly everywhere. `V1`: the same
 * answer, with local words, phone or dates. `V2`: it differs by state or county. `V3`: offices give opposite answers,
 * so none is ever a default and an open one holds publishing back.
 */
export type Varies = 'V0' | 'V1' | 'V2' | 'V3';

export const VARIES: readonly Varies[] = ['V0', 'V1', 'V2', 'V3'];

/** A question that voters ask about marking, correcting and returning a ballot. Its number never changes. */
export interface Question {
	readonly number: number;
	readonly varies: Varies;
	/** As voters put it, in short. For staff; what voters read is the title of an answer. */
	readonly asked: string;
}

/**
 * The questions, numbered from 1. The scale is our reading of public pages of offices, of statutes and of the press: a
 * lead for the office that fills the ledger, not law.
 */
export const QUESTIONS: readonly Question[] = (
	[
		['V2', 'What pen do I use?'],
		['V2', 'I used pencil.'],
		['V2', 'I used red, green or purple ink.'],
		['V3', 'A felt-tip bled through.'],
		['V1', 'Gel pen, highlighter, crayon, lipstick?'],
		['V1', 'The pen ran dry halfway.'],
		['V2', 'How full must the oval be?'],
		['V3', 'Can I use an X or a check?'],
		['V3', 'I circled or underlined the name.'],
		['V1', 'I went outside the oval.'],
		['V2', 'I rested my pen and left a dot.'],
		['V1', 'Last time I joined an arrow. Do I still?'],
		['V1', 'Which oval belongs to which name?'],
		['V2', 'Can I use a stamp or a name sticker?'],
		['V2', 'Can someone mark it for me?'],
		['V0', 'Does it have to be perfect?'],
		['V3', 'I filled the wrong oval.'],
		['V3', 'May I just cross it out?'],
		['V3', 'What exactly do I cross out?'],
		['V3', 'Should I write a note beside it?'],
		['V2', 'Do I initial the change?'],
		['V2', 'Can I erase?'],
		['V0', 'White-out or tape?'],
		['V0', 'A label over the mistake?'],
		['V1', 'I marked two in a pick-one contest.'],
		['V1', 'I crossed out, then want the first one back.'],
		['V2', 'Will a machine read a corrected ballot?'],
		['V2', 'How do I get a replacement?'],
		['V2', 'By when?'],
		['V2', 'How many times?'],
		['V3', 'What do I do with the old one?'],
		['V3', 'I already mailed it. Can I change my vote?'],
		['V3', 'My candidate dropped out after I voted.'],
		['V2', 'My child or pet scribbled on it.'],
		['V0', 'I am at the polls and made a mistake.'],
		['V1', 'The scanner beeped at me.'],
		['V1', 'Will I get in trouble, or must I say why?'],
		['V1', 'Coffee, wine, jam on it.'],
		['V1', 'Torn; the dog ate it.'],
		['V1', 'It got wet, or the envelope sealed itself.'],
		['V1', 'I creased it; the fold runs through an oval.'],
		['V2', 'Can I tape it together?'],
		['V1', 'It does not fit the envelope.'],
		['V1', 'My ballot or envelope is misprinted.'],
		['V2', 'Do I tear off the stub?'],
		['V1', 'Ink smear or pen skid.'],
		['V3', 'I signed or wrote on the ballot.'],
		['V2', 'A poll worker wrote on my ballot.'],
		['V2', 'Can I copy it, or send the sample or practice sheet?'],
		['V0', 'Must I vote in every contest?'],
		['V0', 'I left one blank.'],
		['V0', 'Vote for two, and I chose one.'],
		['V0', 'I voted for too many.'],
		['V0', 'I marked Yes and No.'],
		['V2', 'I marked a name and wrote the same name in.'],
		['V2', 'Straight party plus one other mark.'],
		['V2', 'Is there a back? A second card?'],
		['V1', 'I sent it blank.'],
		['V1', 'The contest is under the instructions; I missed it.'],
		['V2', 'Ranking: the same rank twice, or a rank skipped?'],
		['V1', 'How do I write someone in?'],
		['V3', 'I wrote a name and forgot the oval.'],
		['V2', 'I misspelled it.'],
		['V2', 'Does the person have to sign up first?'],
		['V2', 'I wrote in someone already printed.'],
		['V2', 'Write-ins in a primary?'],
		['V1', 'Joke names?'],
		['V3', 'Why two party ballots; what if I send both?'],
		['V3', 'Can I vote for people of different parties?'],
		['V2', 'I got the wrong party’s ballot.'],
		['V2', 'I have no party: where is President?'],
		['V3', 'What do I do with the party ballot I do not use?'],
		['V2', 'Must I write my party on the envelope?'],
		['V2', 'Can my replacement be the other party?'],
		['V2', 'I forgot to sign.'],
		['V2', 'I signed in the wrong place, or printed it.'],
		['V2', 'My signature has changed, or I make a mark.'],
		['V3', 'We signed each other’s envelopes.'],
		['V3', 'Two ballots in one envelope?'],
		['V2', 'I lost the return envelope.'],
		['V3', 'I forgot the secrecy sleeve.'],
		['V3', 'I tore the flap off.'],
		['V2', 'I sealed it, then opened it again.'],
		['V3', 'Do I need a witness?'],
		['V3', 'Do I need to date it?'],
		['V2', 'Postage?'],
		['V2', 'Can I tape the envelope?'],
		['V3', 'Postmark or arrival?'],
		['V1', 'Was it received?'],
		['V3', 'Two ballots came; which do I use?'],
		['V1', 'It never came, or I threw it out.'],
		['V3', 'Can my partner drop it off? Another county’s box?'],
		['V3', 'Can I take a picture of it?'],
		['V1', 'If it is copied, will they know it is me?'],
		['V2', 'May I take my practice sheet into the booth?'],
		['V0', 'Is this practice a real vote?'],
		['V1', 'Is this page really from the office?']
	] as const
).map(([varies, asked], index) => ({ number: index + 1, varies, asked }));
