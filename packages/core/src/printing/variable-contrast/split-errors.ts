/**
 * Errors of the two exposures of a split: of the fitted paper and of the readings on the negative.
 *
 *   D_i(x_h - n_i, x_s - n_i; p) = D_i   defines (x_s, x_h);   J (dx_s, dx_h)' = g_i dn_i - ∂D_i/∂p dp
 *
 * J holds the slopes by each light, g_i their sum.
 *
 * Sources: implicit function theorem; [Seber2003] section 5.1. Deviations: none.
 */
import type { Estimate } from '../../estimate.ts';
import { mixtureDerivatives, toneOfMixture, type VariableContrastFit } from '../../paper/index.ts';
import { combinedError } from '../interval-of.ts';

/** Densities of the negative under the two tones. */
export interface SplitSpots {
  readonly highlight: Estimate;
  readonly shadow: Estimate;
}

/**
 * Standard errors of the log exposures of a split.
 *
 * @param fit - the fitted paper
 * @param split - log exposures that give the two tones
 * @param spots - densities of the negative with their errors
 * @returns log10 exposures' errors; null where neither paper nor negative has any
 */
export function splitErrors(
  fit: VariableContrastFit,
  split: { readonly softLogExposure: number; readonly hardLogExposure: number },
  spots: SplitSpots,
): { readonly soft: number | null; readonly hard: number | null; readonly ratio: number | null } {
  const { paper, covariance } = fit;
  const none = { soft: null, hard: null, ratio: null };
  if (paper === null) return none;
  const p = fit.parameters.map(({ value }) => value);
  const rows = [spots.highlight, spots.shadow].map(({ value, standardError }) => {
    const hardLogExposure = split.hardLogExposure - value;
    const softLogExposure = split.softLogExposure - value;
    const tone = toneOfMixture(paper, hardLogExposure, softLogExposure);
    const byParameters = new Float64Array(p.length);
    mixtureDerivatives(p, { hardLogExposure, softLogExposure }, byParameters, 0);
    return { soft: tone.gradientBySoft, hard: tone.gradientByHard, byParameters, standardError };
  });
  const [a, b] = rows;
  if (a === undefined || b === undefined) return none;
  const determinant = a.soft * b.hard - a.hard * b.soft;
  if (!(Math.abs(determinant) > 1e-12)) return none;
  // What a change of the right-hand sides (of both tones) does to each exposure.
  const solve = (first: number, second: number) => {
    const soft = (first * b.hard - second * a.hard) / determinant;
    const hard = (a.soft * second - b.soft * first) / determinant;
    return { soft, hard, ratio: hard - soft };
  };
  const fromSpots = [solve(a.soft + a.hard, 0), solve(0, b.soft + b.hard)];
  const byParameter = p.map((_, j) => solve(-(a.byParameters[j] ?? 0), -(b.byParameters[j] ?? 0)));
  const errorOf = (which: 'soft' | 'hard' | 'ratio'): number | null => {
    const spotErrors = rows.map(({ standardError }, i) =>
      standardError === null ? null : (fromSpots[i]?.[which] ?? 0) * standardError,
    );
    let variance = 0;
    byParameter.forEach((one, j) => {
      byParameter.forEach((other, k) => {
        variance += one[which] * other[which] * (covariance?.[j * p.length + k] ?? 0);
      });
    });
    const paperError = covariance === null ? null : Math.sqrt(Math.max(0, variance));
    return combinedError(...spotErrors, paperError);
  };
  return { soft: errorOf('soft'), hard: errorOf('hard'), ratio: errorOf('ratio') };
}
