/**
 * The curve of a paper strip. A paper runs from white to its greatest black, so its curve is a
 * sigmoid, and the logistic families stand beside the default one on equal terms.
 *
 *   lead: least AICc among the families;   weights  w_i ∝ exp(-Δ_i / 2)
 *
 * The families that the readings hardly tell from the lead stay as its companions and widen every
 * error by their weight.
 *
 * Sources: [BA2002] sections 2.6 and 4.3.2. Deviations: none.
 */
import {
  compareFamilies,
  fitCurve,
  type CurveCompanion,
  type CurveFamily,
  type CurveFit,
  type FitCurveOptions,
} from '../curve/index.ts';
import type { CurveReadings } from '../readings/index.ts';

/** Families that a paper may follow. */
export const PAPER_FAMILIES: readonly CurveFamily[] = [
  'toe-shoulder',
  'logistic-4',
  'logistic-5',
  'monotone-smooth',
];

/** Families of less weight than this are not carried along. */
const LEAST_WEIGHT = 0.01;

/**
 * Fits the curve of a paper strip.
 *
 * @param readings - reflection densities by log exposure, any order
 * @param options - the search for slips, as for `fitCurve`
 * @returns the curve with the rival families as companions, or why there is none
 * @throws InvalidArgumentError if the arrays differ in length or hold a value that is not finite
 */
export function fitPaperCurve(
  readings: CurveReadings,
  options: Pick<FitCurveOptions, 'suspects'> = {},
): CurveFit {
  const plain = fitCurve(readings);
  if (plain.status !== 'ok') return plain;
  const candidates = compareFamilies(readings)
    .families.filter(({ family }) => PAPER_FAMILIES.includes(family))
    .flatMap(({ curve, difference }) =>
      curve === null || difference === null ? [] : [{ curve, difference }],
    );
  const [first, ...others] = candidates.sort((a, b) => a.difference - b.difference);
  if (first === undefined) return fitCurve(readings, options);
  const likelihood = (difference: number): number => Math.exp((first.difference - difference) / 2);
  const total = candidates.reduce((sum, { difference }) => sum + likelihood(difference), 0);
  const companions = others
    .map(({ curve, difference }): CurveCompanion => ({
      curve: { ...curve, companions: [], weight: 1 },
      weight: likelihood(difference) / total,
    }))
    .filter(({ weight }) => weight >= LEAST_WEIGHT);
  const own = fitCurve(readings, { ...options, family: first.curve.family });
  return {
    status: 'ok',
    curve: { ...first.curve, companions, weight: 1 / total },
    suspects: own.status === 'ok' ? own.suspects : [],
    warnings: own.warnings,
  };
}
