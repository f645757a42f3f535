/**
 * Points on which published rulebooks part ways, each with its possible answers. A rulebook states its
 * answer where its text gives one and leaves the switch out where it does not. Switches are for laying
 * rulebooks side by side; they decide something only where a clause's condition asks for one.
 */
export const SWITCHES = {
	consistency: ['gate', 'evidence', 'none'],
	targetZone: ['inside', 'touching', 'adjacent', 'row'],
	glyphsInTarget: ['any', 'listed', 'filled-only', 'machine'],
	dotInTarget: ['vote', 'no-vote', 'compare'],
	ringOfTarget: ['vote', 'no-vote', 'consistent', 'person'],
	ringOfName: ['vote', 'no-vote', 'consistent', 'person'],
	underlinedName: ['vote', 'no-vote', 'consistent', 'person'],
	besideName: ['vote', 'no-vote', 'consistent', 'person'],
	lineFromTargetToName: ['vote', 'no-vote'],
	minFill: ['none', 'majority', 'office-setting'],
	visibleToScanner: ['is-the-test', 'is-not-the-test'],
	unseenInk: ['vote', 'no-vote', 'duplicate', 'gate'],
	strikeWithOther: ['other-stands', 'overvote', 'choice-void', 'contest-void', 'person'],
	erasureWithOther: ['other-stands', 'overvote', 'choice-void', 'contest-void', 'person'],
	strikeAlone: ['no-vote', 'vote', 'person'],
	othersStruck: ['vote', 'no-vote', 'person'],
	supportMark: ['decides', 'ignored', 'person'],
	negativeWord: ['cancels', 'ignored', 'person'],
	writtenWordOnMeasure: ['vote', 'no-vote', 'person'],
	partialSecondMark: ['overvote', 'ignored', 'person'],
	oneMarkOnTwoTargets: ['overvote', 'no-vote', 'person'],
	writeInsExist: ['yes', 'no'],
	writeInNeedsTarget: ['yes', 'no', 'recount-only', 'told-to-mark'],
	writeInNeedsOffice: ['yes', 'no'],
	writeInOfPrintedName: ['vote', 'no-vote'],
	writeInWithPrinted: ['overvote', 'printed-stands', 'person'],
	writeInTargetNoName: ['ignored', 'undervote', 'contest-void'],
	sameCandidateTwice: ['one', 'first', 'none'],
	sticker: ['allowed', 'write-in-void', 'contest-void', 'ballot-void'],
	identifyingMark: ['void', 'void-if-purpose', 'duplicate', 'stands', 'person'],
	remark: ['stands', 'void', 'person'],
	damagedSheet: ['duplicate', 'hand-count', 'void', 'stands', 'person'],
	crossParty: ['void-ballot', 'void-partisan', 'preference-wins', 'not-on-this-ballot'],
	writeInInPrimary: ['vote', 'no-vote'],
	overvoteReview: ['always', 'never', 'damaged-only', 'mail-only', 'hand-count-only'],
	overvoteAtScanner: ['returned', 'set-aside', 'ignored'],
	panel: ['majority', 'unanimous', 'discretion', 'one-official'],
	replacementBallots: ['two-in-all', 'three-in-all', 'four-in-all', 'no-number'],
	rankedSameRank: ['stop', 'void', 'pass'],
	rankedOneSkip: ['stop', 'void', 'pass'],
	rankedTwoSkips: ['stop', 'void', 'pass']
} as const;

export type SwitchName = keyof typeof SWITCHES;
