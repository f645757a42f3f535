/**
 * Twenty questions by number, those that offices and the press name most often, roughly in that order: clerks call a
 * wrong or a second oval the most common mistake (KSL NewsRadio, "Common ballot mistakes", 2020). No published ranking of
 * questions was found, so the order is ours: an office that has counted its calls should put its own here.
 */
export const OFTEN_ASKED: readonly number[] = [
	17, 18, 25, 28, 1, 7, 8, 32, 75, 38, 9, 2, 61, 62, 4, 35, 50, 47, 78, 88
];
