import type { SearchWords } from './words';

export const en: SearchWords = {
	stop: split(`a an the of for to in on at by with from as and or but so if then than that this these those there here
		is are was were be been being am do does did done have has had having i me my mine we us our ours you your yours he
		him his she her hers it its they them their theirs who whom which what when how where why can could may might must
		shall should will would want wanted need please ok okay hi hello hey um uh thing things stuff just really still
		even also very too any some all get got gets go going gonna gotta let lets now im ive id its thats theres whats
		ballot ballots vote votes voted voting voter mark marks marked`),
	phrases: [
		[/\bwr(?:ite|iting|ote|itten|ites)[ -]*ins?\b/g, 'writein'],
		[/\bw(?:h)?ite[ -]*out\b/g, 'whiteout'],
		[/\bdrop(?:ped|ping|s)?[ -]*out\b/g, 'dropout'],
		[/\bdrop(?:ped|ping|s)?[ -]*(?:it |them |this |mine |hers |his |ours )?off\b/g, 'dropoff'],
		[/\bdrop[ -]*box(?:es)?\b/g, 'dropbox'],
		[/\bcross(?:ed|ing|es)?[ -]*(?:it |them |this |that |one )?(?:out|off)\b/g, 'crossout'],
		[/\bcross(?:ed|ing)?[ -]*over\b/g, 'crossover'],
		[
			/\b(?:scratch|strike|struck|mark|black|x)(?:ed|ing)?[ -]+(?:it |them |this |that |one )?(?:out|off|through|thru)\b/g,
			'crossout'
		],
		[/\bx[' ]?d\b/g, 'cross'],
		[/\b(?:return|send|mail) (?:the )?envelope\b/g, 'envelope'],
		[/\b(?:did|do|does|could|can|was|is|wo|would|has|have|had|should)n'?t\b/g, 'not'],
		[/\b(?:cannot|cant|wont|dont)\b/g, 'not'],
		[/\btwo\b|\bboth\b|\bcouple\b/g, '2'],
		[/\bthree\b/g, '3'],
		[/\bfour\b/g, '4'],
		[/\bone\b|\bsingle\b/g, '1'],
		[/\bthru\b/g, 'through'],
		[/\bfelt[ -]*tips?\b/g, 'felttip'],
		[/\b(?:polling|voting) (?:place|booth|station|location|site)\b/g, 'polls'],
		[/\bpoll ?workers?\b/g, 'pollworker'],
		[/\bstraight[ -](?:party|ticket)\b/g, 'straightticket'],
		[/\bhow many times\b|\bhow often\b/g, 'howmany'],
		[/\bhow many\b/g, 'howmany'],
		[
			/\bhow late\b|\bhow long\b|\bby when\b|\bwhat (?:day|time|date)\b|\btoo late\b|\blast day\b|\bin time\b/g,
			'deadline'
		],
		[/\bwhen\b/g, 'deadline'],
		[/\bin trouble\b/g, 'trouble'],
		[
			/\bthrow(?:n|ing)?[ -]*(?:it |them |this |mine )?(?:out|away)\b|\bthrew[ -]*(?:it |them |this |mine )?(?:out|away)\b/g,
			'trash'
		],
		[/\bchang(?:e|ed|ing) my mind\b/g, 'changemind'],
		[/\bmess(?:ed|ing)? (?:it |this |things )?up\b|\bscrew(?:ed|ing)? (?:it |this |things )?up\b/g, 'mistake']
	],
	alike: {
		oval: split('oval bubble circle ellipse spot blob target hole ring'),
		fill: split('fill color colour shade darken blacken bubbled'),
		wrong: split(
			'wrong mistake error goof slip oops incorrect accident accidental accidentally mess messed screwed screw botch botched flub blew mixup erred'
		),
		not: split(
			'not no never without forgot forget forgotten missing miss missed left lacking neglected unable nothing omitted absent'
		),
		child: split(
			'child kid son daughter toddler baby grandson granddaughter grandkid grandchild niece nephew boy girl infant'
		),
		pet: split('pet dog cat puppy kitten bird parrot rabbit hamster'),
		family: split(
			'husband wife spouse partner boyfriend girlfriend fiance hubby roommate sister brother family relative household couple'
		),
		carer: split(
			'mom mother dad father grandma grandpa grandmother grandfather caregiver nurse aide parent helper assistant neighbor neighbour friend someone somebody anyone'
		),
		spill: split(
			'coffee tea wine beer juice soda milk soup jam jelly sauce ketchup grease butter oil water rain mud blood spill spilled stain stained wet soaked damp soggy dirty sticky food syrup honey gravy'
		),
		tear: split(
			'tear tore torn rip ripped shred shredded chew chewed ate eaten cut hole pieces halves mangled mutilated'
		),
		color: split('red green purple pink orange teal turquoise brown gold silver violet magenta yellow colored'),
		faint: split('faint light lighter pale faded fading fade dim weak dry dried died dying empty skipping'),
		unusual: split('highlighter crayon lipstick eyeliner gel makeup paint chalk charcoal glitter polish'),
		trash: split('trash garbage bin toss tossed discard shred destroy recycle dispose threw throw dump burn junk'),
		again: split('replacement replace another new fresh redo exchange swap reissue over second extra duplicate'),
		late: split('deadline due cutoff late'),
		send: split(
			'send sent mail mailed mailing mailbox post posted submit submitted return returned turned dropoff drop dropped deliver deposit'
		),
		signature: split('sign signed signing signature unsigned autograph signatures'),
		swap: split('swap swapped switch switched mix mixed exchange traded trade confused crossed'),
		envelope: split('envelope envelop packet'),
		sleeve: split('sleeve secrecy privacy inner inside folder cover'),
		person: split('candidate person guy name names man woman lady people politician'),
		contest: split('contest race office seat position item section question'),
		measure: split('measure proposition prop amendment bond levy tax referendum question initiative issue'),
		party: split('party parties partisan primary'),
		noparty: split('independent unaffiliated nonpartisan nonaffiliated'),
		machine: split('machine scanner tabulator reader scan'),
		beep: split('beep beeped beeping buzz spit spat kicked reject rejected returned refuse refused error noise alarm'),
		polls: split('polls poll booth precinct polling station line'),
		cover: split('whiteout fluid liquid correction label sticker tape patch'),
		tape: split('tape taped taping glue glued staple'),
		crossout: split('crossout strike strikethrough scratch slash scribble line cross'),
		check: split('check checkmark tick ticked cross x xs'),
		underline: split('underline underlined circled encircled highlighted ringed looped boxed'),
		note: split('note message comment arrow explain explanation remark annotate'),
		trouble: split(
			'trouble illegal crime arrested jail fine penalty fraud embarrassed ashamed stupid law prosecuted scared'
		),
		fold: split('fold folded folding crease creased wrinkle wrinkled crumple crumpled bent bend crinkled'),
		smear: split('smear smeared smudge smudged streak skid blot leaked leak slipped slip jerked dragged'),
		photo: split('photo picture pic selfie snapshot camera video photograph post share instagram film'),
		secret: split('secret private privacy anonymous know see trace identify reveal'),
		copy: split('copy copied photocopy duplicate duplicated duplication remake remade redo'),
		sample: split('sample practice demo specimen printout website download'),
		scam: split('scam fake legit legitimate fraud phishing spam official suspicious hoax real genuine trust'),
		received: split('received receive arrive arrived counted count track tracking accepted status confirmation'),
		stamp: split('stamp stamps postage prepaid'),
		help: split(
			'help assist assistance blind arthritis shake shaky tremor disabled disability eyesight wheelchair braille elderly'
		),
		page: split('page back side reverse card sheet flip behind'),
		quit: split('quit dropout withdrew withdraw withdrawn died dead resigned suspended dying passed'),
		rank: split('rank ranked ranking rcv choice preference'),
		joke: split('joke funny cartoon superhero fictional prank silly celebrity fake'),
		spell: split('spell spelled spelling misspell misspelled mispelled handwriting cursive nickname'),
		skip: split('skip skipped blank empty abstain omit pass'),
		many: split('many more extra overvote overvoted'),
		few: split('fewer less few only'),
		initials: split('initial initials initialed initialled'),
		flap: split('flap certificate'),
		witness: split('witness notary notarized notarize'),
		date: split('date dated undated birthday year')
	},
	stem: (word) => {
		if (word.length < 4) return word;
		const bare = word
			.replace(/'s?$/, '')
			.replace(/ies$/, 'y')
			.replace(/(ss|sh|ch|x)es$/, '$1')
			.replace(/([^su])s$/, '$1');
		const cut = bare.replace(/(?:ing|ed|er|ly)$/, '');
		if (cut === bare || cut.length < 3 || !/[aeiouy]/.test(cut)) return bare.replace(/e$/, '');
		return cut.replace(/([bdgklmnprt])\1$/, '$1').replace(/e$/, '');
	}
};

function split(words: string): readonly string[] {
	return words.split(/\s+/);
}
