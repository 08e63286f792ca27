/**
 * The last word on a curve: the family that the readings ask for, its rivals and its tests. An entry of
 * its own, so that a page can show `firstCurve` at once and load this after its first paint.
 */
export { compareFamilies } from './curve/compare-families.ts';
export { fitCurve } from './curve/fit-curve.ts';
export { fitPaperCurve } from './paper/fit-paper-curve.ts';
