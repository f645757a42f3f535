/**
 * Three-valued logic (S. C. Kleene, Introduction to Metamathematics, 1952, section 64): a part that a
 * person must settle leaves the whole unsettled only where it turns on that part.
 */
export const NO = 0;
export const UNSURE = 1;
export const YES = 2;
export type Truth = typeof NO | typeof UNSURE | typeof YES;

export const both = (a: Truth, b: Truth): Truth => (a < b ? a : b);
export const either = (a: Truth, b: Truth): Truth => (a > b ? a : b);
export const negate = (a: Truth): Truth => (2 - a) as Truth;
export const truth = (held: boolean): Truth => (held ? YES : NO);
