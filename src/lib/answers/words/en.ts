import type { SearchWords } from './words';

/** A short stem that had an e before "-ed" or "-ing" came: dat(e)d, tap(e)d; tapped has two. */
const CLIPPED = /^[^aeiou]?[aeiou][^aeiouwxy]$/;

export const en: SearchWords = {
	drop: split('the a an i it my me is are am was be to in on of and or can could do does did this that'),
	weak: split(`a an the of for to in on at by with from as and or but so if then than that this these those there here
		is are was were be been being am do does did done have has had having i me my mine we us our ours you your yours he
		him his she her hers it its they them their theirs who whom which what when how where why can could may might must
		shall should will would want wanted need please ok okay hi hello hey um uh thing things stuff just really still
		even also very too any some all get got gets go going gonna gotta let lets now im ive id its thats theres whats
		votes vote voted voting voter mark marks marked`),
	phrases: [
		[/\byes\b.{0,20}\bno\b|\bno\b.{0,12}\byes\b|\bfor\b.{0,8}\bagainst\b|\byea\b.{0,8}\bnay\b/g, 'yesno'],
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
		office: split(
			'judge treasurer sheriff mayor governor senator senate assessor commissioner council board clerk congress president attorney coroner auditor'
		),
		back: split('back reverse backside behind flip flipside'),
		accident: split('accident accidental accidentally unintentionally'),
		animal: split('animal goldfish hamster'),
		cover2: split('label sticker patch decal'),
		oval: split('oval bubble circle ellipse spot blob target hole ring'),
		fill: split('fill color colour shade darken blacken bubbled'),
		wrong: split(
			'wrong mistake error goof slip oops incorrect mess messed screwed screw botch botched flub blew mixup erred mistaken mistakenly misfilled bungled'
		),
		not: split(
			'not no never without forgot forget forgotten missing miss missed lacking neglected unable absent havent hasnt wasnt isnt'
		),
		child: split(
			'child kid son daughter toddler baby grandson granddaughter grandkid grandchild niece nephew boy girl infant'
		),
		pet: split('pet dog cat puppy kitten bird parrot rabbit hamster'),
		family: split(
			'husband wife spouse partner boyfriend girlfriend fiance hubby roommate sister brother family relative household couple'
		),
		carer: split(
			'mom mother dad father grandma grandpa grandmother grandfather caregiver nurse aide neighbor neighbour friend aunt uncle cousin nephew'
		),
		spill: split(
			'coffee tea wine beer juice soda milk soup jam jelly sauce ketchup grease butter oil water rain mud blood spill spilled stain stained wet soaked damp soggy dirty sticky syrup honey gravy wash washed washer laundry mug cup sprinkler puddle moist humid humidity tipped drenched cocoa chocolate smoothie'
		),
		tear: split(
			'tear tore torn rip ripped shred shredded chew chewed ate halves mangled mutilated bit bite gnawed split'
		),
		color: split('red green purple pink orange teal turquoise brown gold silver violet magenta yellow colored'),
		faint: split('faint light lighter pale faded fading fade dim weak dried died dying skipping washed'),
		unusual: split('highlighter crayon lipstick eyeliner gel makeup paint chalk charcoal glitter polish'),
		trash: split('trash garbage bin toss tossed discard shred destroy recycle dispose threw throw dump burn junk'),
		again: split('replacement replace another new fresh redo exchange swap reissue spare restart'),
		late: split('deadline due cutoff late'),
		send: split(
			'send sent mail mailed mailing mailbox post posted submit submitted return returned turned dropoff drop dropped deliver deposit sending posting'
		),
		signature: split('sign signed signing signature unsigned autograph signatures'),
		swap: split('swap swapped switch switched mix mixed exchange traded trade confused crossed'),
		envelope: split('envelope envelop packet'),
		sleeve: split('sleeve secrecy privacy'),
		person: split('candidate guy man woman lady politician fella fellow gal dude chap'),
		contest: split('contest race office seat'),
		measure: split('measure proposition prop amendment bond levy tax referendum question initiative issue'),
		party: split('party parties partisan'),
		noparty: split('independent unaffiliated nonpartisan nonaffiliated'),
		machine: split('machine scanner tabulator reader scan'),
		beep: split(
			'beep beeped beeping buzz spit spat kicked reject rejected returned refuse refused noise alarm rejects beeps'
		),
		polls: split('polls poll booth precinct polling station line'),
		cover: split('whiteout fluid liquid correction corrector dabbed'),
		tape: split('tape taped taping glue glued staple'),
		crossout: split('crossout strike strikethrough scratch slash struck lined'),
		check: split('check checkmark tick ticked cross x xs'),
		underline: split('underline underlined circled encircled highlighted ringed looped boxed'),
		note: split('note message comment explain explanation remark annotate jot asterisk wrote words'),
		trouble: split(
			'trouble illegal crime arrested jail fine penalty fraud embarrassed ashamed stupid law prosecuted scared'
		),
		fold: split('fold folded folding crease creased wrinkle wrinkled crumple crumpled bent bend crinkled'),
		smear: split('smear smeared smudge smudged streak skid blot leaked leak slipped slip jerked dragged'),
		photo: split('photo picture pic selfie snapshot camera video photograph snap photographed'),
		secret: split('secret private privacy anonymous trace reveal confidential traced link linked'),
		copy: split('copy copied photocopy duplicate duplicated duplication remake remade redo'),
		sample: split('sample practice demo specimen printout website download'),
		scam: split('scam fake legit legitimate fraud phishing spam official suspicious hoax real genuine trust'),
		received: split('received receive arrive arrived counted count track tracking accepted status confirmation'),
		stamp: split('stamp stamps postage prepaid'),
		help: split(
			'help assist assistance blind arthritis shake shaky tremor disabled disability eyesight wheelchair braille blindness vision sight tremors parkinson'
		),
		page: split('page card sheet'),
		quit: split('quit dropout withdrew withdraw withdrawn died dead resigned suspended dying passed'),
		rank: split('rank ranked ranking rcv choice preference'),
		joke: split('joke funny cartoon superhero fictional prank silly celebrity fake'),
		spell: split('spell spelled spelling misspell misspelled mispelled handwriting cursive nickname'),
		skip: split('skip skipped abstain ignore'),
		many: split('many more extra overvote overvoted'),
		few: split('fewer less few'),
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
		const whole = cut === bare || cut.length < 3 || !/[aeiouy]/.test(cut);
		const end = whole ? bare : CLIPPED.test(cut) ? `${cut}e` : cut;
		// "note" must not become "not", nor "tape" "tap".
		return end.replace(/([bdgklmnprt])\1$/, '$1').replace(/(...)e$/, end.length > 4 ? '$1' : '$&');
	}
};

function split(words: string): readonly string[] {
	return words.split(/\s+/);
}
