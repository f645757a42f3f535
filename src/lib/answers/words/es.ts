import type { SearchWords } from './words';

/** Words whose ending is part of them, or whose middle changes, by their beginning: "partido" is no "parte". */
const OWN: readonly (readonly [start: string, stem: string])[] = [
	['partid', 'partido'],
	['casill', 'casilla'],
	['medid', 'medida'],
	['devuelv', 'devolv'],
	['vuelv', 'volv'],
	['cuent', 'cont'],
	['cierr', 'cerr'],
	['muestr', 'muestra'],
	['prueb', 'prob'],
	['hoyo', 'hoyo'],
	['case', 'casar'],
	['casi', 'casi'],
	['danad', 'danad'],
	['vino', 'vino']
];

export const es: SearchWords = {
	drop: split('el la los las lo un una de del al en mi mis me se y o a es esta que puedo por su'),
	weak: split(`el la los las un una unos unas lo al del de a en con por para y o u e que se si su sus mi mis me te le les nos
		nosotros yo tu usted ustedes ella ellos ellas esto esta este estas estos ese esa eso aquel ya muy mas mucho todo toda
		todos todas es son era fue ser estar estoy esta estan estaba hay haber he ha han habia tengo tiene tienen tenia
		puedo puede pueden podria debo debe deben hago hacer hace como cual cuales donde quien quienes porque pues asi ahi
		aqui alli tambien entonces hola buenas oiga disculpe favor gracias algo cosa nomas tan tanto va vale voy vamos ahora
		quiero quiere quisiera necesito voto votos votar vote votando marca marcas marcar`),
	phrases: [
		// "Sobre" is the envelope and also "over" or "about"; with no article before it and one of these behind, it is not the envelope.
		[
			/(?<!\b(?:el|un|mi|del|al|este|otro|su|mismo|cada|tu|ese|dos|los) )\bsobre (?=(?:el |la |lo |los |las |un |una |mi |su )?(?:nombre|respuesta|error|ovalo|bolita|opcion|equivocad|fila|boleta|circulo|que|mal|papel|vot))/g,
			'encima '
		],
		[
			/\bsi\b(?: y(?: el)?| pero(?: tambien)?| (?:y )?luego(?: el)?|,? el|.{0,14} y el| y puse) no\b|\ba favor y en contra\b|\bno y (?:el )?si\b/g,
			'sino'
		],
		[/\bno registrad[oa]s?\b/g, 'noregistrado'],
		[/\bcentro de votacion\b|\blugar de votacion\b|\bcasilla electoral\b/g, 'casilla'],
		[/\bdia de (?:la|las) eleccion(?:es)?\b/g, 'diaeleccion'],
		[/\bde mas\b|\bdemasiad[oa]s?\b/g, 'demasiado'],
		[/\b(?:de nuevo|otra vez|nuevamente)\b/g, 'otravez'],
		[/\bdos\b|\bambos\b|\bambas\b/g, '2'],
		[/\btres\b/g, '3'],
		[/\bcuatro\b/g, '4'],
		[
			/\bhasta cuando\b|\bpara cuando\b|\bfecha limite\b|\bultimo dia\b|\ba que hora\b|\bhasta que (?:hora|dia)\b|\ba tiempo\b/g,
			'plazo'
		],
		[/\bcuantas veces\b|\bcuant[oa]s\b/g, 'cuantos'],
		[/\bcuando\b/g, 'plazo'],
		[/\bpunta de fieltro\b/g, 'fieltro'],
		[/\bletra de molde\b/g, 'letramolde'],
		[/\bcambi(?:e|ar|o) de (?:opinion|idea)\b/g, 'cambieidea'],
		[/\bse me olvid[oa](?:ron)?\b/g, 'olvide'],
		[/\b(?:la|lo) regue\b|\bmeti la pata\b/g, 'equivoque'],
		[/\bplanilla completa\b|\bpartido completo\b|\bvoto directo\b|\btodo (?:el|un|mi) partido\b/g, 'planilla'],
		[/\bech(?:e|ar|a|o|ada|arla) a perder\b/g, 'arruinada']
	],
	alike: {
		office: split(
			'juez jueces tesorero tesoreria alguacil alcalde alcaldesa gobernador senador senado tasador comisionado comisionados concejo concejal junta presidente fiscal'
		),
		back: split('atras reverso detras voltear voltearla vuelta dorso'),
		etiqueta: split('etiqueta calcomania pegatina parche papelito'),
		oval: split('ovalo bolita circulo circulito burbuja espacio casillita redondel rueda bola ovalito'),
		fill: split('rellenar llenar pintar colorear sombrear rellene llene pinte coloree oscurecer rellenado'),
		wrong: split(
			'equivocado equivoque equivoca error confundi erroneo incorrecto fallo falla ups equivocacion cometi ekivoque sinquerer equivocarse equivocarme'
		),
		not: split('no nunca sin olvide falta falto faltaba jamas ningun ninguno ninguna olvido omiti tampoco'),
		child: split('nino nina hijo hija bebe nieto nieta chiquito chiquita sobrino sobrina chamaco ninos criatura'),
		pet: split('perro gato mascota cachorro gatito perrito pajaro conejo'),
		family: split(
			'esposo esposa marido mujer pareja novio novia companero companera hermano hermana familia roommate conyuge senora'
		),
		carer: split(
			'mama papa madre padre abuela abuelo abuelita cuidadora cuidador enfermera ayudante vecino vecina amigo amiga tia tio primo prima asistente'
		),
		spill: split(
			'cafe vino cerveza jugo refresco leche sopa mermelada salsa grasa aceite agua lluvia lodo sangre derrame derramo mancha mojada mojo humeda sucia pegajosa chocolate llovio empapo lavo lavadora taza lavar charco aspersores tinto empapada derramar chorreo volteo'
		),
		tear: split(
			'rota rompi rompio rasgo rasgada pedazos mordio mordisqueo comio agujero hoyo mitades trizas partio rotura desgarro desgarrada despedazo mordida tiras'
		),
		color: split('roja rojo verde morada morado rosa anaranjada violeta turquesa dorada plateada amarilla rosado lila'),
		faint: split('tenue clara clarita palida debil seca seco acabo termino fallo gasto clarito bajita desvanecida'),
		unusual: split(
			'marcatextos resaltador crayon crayones labial pintalabios delineador gel maquillaje pintura gis tiza carbon esmalte fosforescente'
		),
		trash: split(
			'basura tirar tire tiro triturar triture destruir reciclar recicle desechar quemar deshacerme bote botar bote romperla'
		),
		again: split('reemplazo limpia reponer reposicion cambiarla sustituir repuesto remplazo otravez repetir'),
		late: split('plazo limite vence tarde ultimo'),
		send: split(
			'enviar envie mandar mande mando correo buzon echar eche deposite regresar regrese devolver devolvi entregar entregue dejarla llevar llevarla puse'
		),
		signature: split('firma firmar firme firmo firmado firmas rubrica firmamos'),
		swap: split('cambiamos intercambiamos confundimos mezclamos cruzamos reves intercambie mezclaron confundi'),
		envelope: split('sobre sobres paquete'),
		sleeve: split('funda privacidad cubierta protector sobrecito'),
		person: split('candidato candidata senor senora politico muchacha muchacho tipo'),
		contest: split('contienda puesto cargo carrera'),
		measure: split('medida propuesta proposicion enmienda bono impuesto referendum pregunta iniciativa consulta'),
		party: split('partido partidos primaria'),
		noparty: split('independiente afiliado afiliacion apartidista'),
		machine: split('maquina escaner lector escanear escanee'),
		beep: split(
			'pito pitido pitando sono suena escupio rechazo zumbido alarma ruido rechaza rechazar sonar suene pite'
		),
		polls: split('casilla cabina urna recinto fila mesa votacion'),
		cover: split('corrector liquido tapar tape cubrir cubri tapado'),
		tape: split('cinta pegar pegarla pegamento grapar celo adhesiva goma pegue'),
		crossout: split('tachar tacho tachado tachadura tachon rayar raye raya rayarlo tacharlo tachones tachada tachadas'),
		check: split('palomita paloma equis cruz tache x tilde palomee palomear'),
		underline: split('subraye subrayar encerre encerrar circule rodee resalte subrayado encerrado'),
		note: split('nota notita mensaje recado comentario explicar explico anotar aclarar flecha'),
		trouble: split(
			'problemas problema ilegal delito carcel multa castigo pena verguenza fraude lio arrestan miedo regano'
		),
		fold: split('doblez doblar doble doblada arruga arrugada arrugo pliegue doblo dobleces arrugue'),
		smear: split('borron corrio corrida embarro resbalo goteron goteo barrio mancho tallo rayon'),
		photo: split('foto selfi selfie retratar retrato camara video celular redes fotografia publicar subirla grabar'),
		secret: split('secreto privado anonimo saben sabran rastrear identificar enterar confidencial'),
		copy: split('copia copiar copian fotocopia duplicar rehacer rehacen copie'),
		sample: split('muestra practica ensayo pagina imprimir descargar ejemplo'),
		scam: split('estafa falsa falso legitimo oficial fraude sospechoso confiar enganio engano verdad raro'),
		received: split(
			'llego recibieron recibida contaron conto contar rastrear rastreo seguimiento estado aceptaron confirmacion recibio'
		),
		stamp: split('estampilla estampillas timbre franqueo porte'),
		help: split('ayuda ayudar ciego ciega artritis temblor tiemblan discapacidad vista braille anciano mayor'),
		page: split('pagina hoja tarjeta hojas'),
		quit: split('retiro renuncio murio fallecio abandono suspendio bajo declino salio'),
		rank: split('rango orden preferencia ordenar ranquear rangos'),
		joke: split('broma chiste caricatura superheroe personaje famoso inventado chistoso'),
		spell: split('ortografia deletrear apodo manuscrita cursiva faltas'),
		skip: split('saltar salte omitir saltarme salto abstener brinque brincar brincarme saltarse ignorar'),
		many: split('demasiado muchos varios exceso sobrevoto limite'),
		few: split('menos pocos'),
		initials: split('iniciales inicial antefirma'),
		flap: split('solapa certificado lengueta pestana aleta'),
		witness: split('testigo notario notariado testigos'),
		date: split('fecha cumpleanos ano fechar fechas')
	},
	stem: (word) => {
		if (word.length < 4) return word;
		const own = OWN.find(([start]) => word.startsWith(start));
		if (own) return own[1];
		const bare = word
			.replace(/(?:mente|cito|cita|citos|citas)$/, '')
			.replace(/(?:arla|arlo|erla|erlo|irla|irlo|arme|arse|arlas|arlos)$/, '')
			.replace(
				/(?:aron|ieron|aste|iste|amos|imos|emos|ando|iendo|ados|adas|idos|idas|ado|ada|ido|ida|aba|ia|ar|er|ir)$/,
				''
			)
			.replace(/(?:es|as|os|s)$/, '')
			.replace(/[aeiou]$/, '')
			.replace(/i$/, '')
			.replace(/qu$/, 'c')
			.replace(/gu$/, 'g')
			.replace(/z$/, 'c');
		return bare.length < 3 ? word.replace(/s$/, '') : bare;
	}
};

function split(words: string): readonly string[] {
	return words.split(/\s+/);
}
