import type { Text } from '../election/election';

/** Where in a voter's way a mistake happens; tallies are summed by it. */
export type MistakeGroup = 'pen' | 'marking' | 'correction' | 'contest' | 'write-in' | 'paper' | 'envelope' | 'return';

export interface MistakeCode {
	/** Stable: it stands in exported tallies, and is never given another meaning. */
	readonly id: string;
	readonly group: MistakeGroup;
	readonly label: Text;
}

/**
 * The kinds of mistakes, one list for practice, answers, call desk, tally and export, so that what people practise
 * wrong can be laid beside what they ask and what a count's own log shows. Add to it; never rename or reuse an id.
 */
export const MISTAKE_CODES = [
	code('wrong-pen', 'pen', 'Pen that machines may not see', 'Instrumento que las máquinas quizá no vean'),
	code('pencil', 'pen', 'Pencil', 'Lápiz'),
	code('colored-ink', 'pen', 'Colored ink', 'Tinta de color'),
	code('bleed-through', 'pen', 'Ink came through the paper', 'La tinta traspasó el papel'),
	code('faint-mark', 'pen', 'Faint mark', 'Marca tenue'),
	code('partial-fill', 'marking', 'Target filled only in part', 'Espacio rellenado solo en parte'),
	code('check-or-cross', 'marking', 'Check or X', 'Palomita o X'),
	code('name-marked', 'marking', 'Name circled or underlined', 'Nombre encerrado en un círculo o subrayado'),
	code('outside-target', 'marking', 'Mark outside the target', 'Marca fuera del espacio'),
	code('stray-dot', 'marking', 'Dot of a resting pen', 'Punto de un bolígrafo apoyado'),
	code('old-arrow', 'marking', 'Line as on an arrow ballot', 'Línea como en una boleta de flechas'),
	code('wrong-side', 'marking', 'Mark on the wrong side of the name', 'Marca en el lado equivocado del nombre'),
	code('sticker-or-stamp', 'marking', 'Sticker or stamp', 'Etiqueta o sello'),
	code('wrong-choice', 'correction', 'Wrong choice marked', 'Opción equivocada'),
	code('crossed-out', 'correction', 'Crossed out', 'Tachadura'),
	code('erased', 'correction', 'Erased', 'Marca borrada'),
	code('covered-up', 'correction', 'Covered with fluid, tape or a label', 'Tapada con corrector, cinta o etiqueta'),
	code('note-or-initials', 'correction', 'Note or initials by a change', 'Nota o iniciales junto a un cambio'),
	code('corrected-twice', 'correction', 'Corrected more than once', 'Corregida más de una vez'),
	code('too-many', 'contest', 'More marks than allowed', 'Más marcas de las permitidas'),
	code('yes-and-no', 'contest', 'Yes and No both marked', 'Sí y No marcados'),
	code('crossover', 'contest', 'Contests of two parties marked', 'Contiendas de dos partidos marcadas'),
	code('left-blank', 'contest', 'Contest left blank', 'Contienda en blanco'),
	code('missed-contest', 'contest', 'Contest or page missed', 'Contienda o página sin ver'),
	code('rank-problem', 'contest', 'Rank used twice or skipped', 'Rango repetido u omitido'),
	code('write-in-no-target', 'write-in', 'Name written, target empty', 'Nombre escrito, espacio vacío'),
	code('write-in-no-name', 'write-in', 'Target marked, no name', 'Espacio marcado, sin nombre'),
	code('write-in-printed-name', 'write-in', 'Printed name written in again', 'Nombre impreso escrito otra vez'),
	code('write-in-name', 'write-in', 'Doubt about the written name', 'Duda sobre el nombre escrito'),
	code('stained', 'paper', 'Stained or wet', 'Manchada o mojada'),
	code('torn', 'paper', 'Torn', 'Rota'),
	code('folded', 'paper', 'Fold or crease through a target', 'Doblez sobre un espacio'),
	code('smeared', 'paper', 'Ink smeared', 'Tinta corrida'),
	code('scribbled', 'paper', 'Scribbled on by someone else', 'Garabatos de otra persona'),
	code('signed-ballot', 'paper', 'Name, signature or note on the ballot', 'Nombre, firma o nota en la boleta'),
	code('misprint', 'paper', 'Misprint or missing part', 'Error de impresión o parte faltante'),
	code('unofficial-paper', 'paper', 'Copy, sample or practice sheet', 'Copia, muestra u hoja de práctica'),
	code('not-signed', 'envelope', 'Envelope not signed', 'Sobre sin firma'),
	code('signed-wrong-place', 'envelope', 'Signed in the wrong place', 'Firma en el lugar equivocado'),
	code('signature-differs', 'envelope', 'Signature has changed', 'La firma ha cambiado'),
	code('swapped-envelopes', 'envelope', 'Envelopes swapped', 'Sobres intercambiados'),
	code('two-in-one', 'envelope', 'Two ballots in one envelope', 'Dos boletas en un sobre'),
	code('envelope-lost', 'envelope', 'Return envelope lost', 'Sobre de devolución perdido'),
	code('no-sleeve', 'envelope', 'Secrecy sleeve left out', 'Sin funda de secreto'),
	code('flap-torn', 'envelope', 'Flap torn off', 'Solapa arrancada'),
	code('opened-again', 'envelope', 'Opened after sealing', 'Abierto después de cerrado'),
	code('witness-or-date', 'envelope', 'Witness or date left out', 'Falta el testigo o la fecha'),
	code('envelope-damaged', 'envelope', 'Envelope damaged', 'Sobre dañado'),
	code('sent-already', 'return', 'Mistake seen after sending', 'Error visto después del envío'),
	code('too-late', 'return', 'Late, or afraid to be', 'Tarde, o temor de llegar tarde'),
	code('never-came', 'return', 'Ballot lost or never came', 'La boleta se perdió o nunca llegó'),
	code('two-ballots', 'return', 'Two ballots came', 'Llegaron dos boletas'),
	code('wrong-ballot', 'return', 'Ballot of another party or place', 'Boleta de otro partido o lugar')
] as const satisfies readonly MistakeCode[];

export type MistakeCodeId = (typeof MISTAKE_CODES)[number]['id'];

function code<Id extends string>(id: Id, group: MistakeGroup, en: string, es: string) {
	return { id, group, label: { en, es } } as const;
}
