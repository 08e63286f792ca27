/**
 * Robust regression by Huber's loss, with a scale from the median absolute residual.
 *
 *   minimise sum rho(r_i / s),  rho(z) = z^2 / 2 for |z| <= k, k |z| - k^2 / 2 beyond
 *   s = 1.4826 median |r_i| sqrt(n / (n - p)),  k = 1.5
 *
 * by iteratively reweighted least squares, w_i = min(1, k s / |r_i|).
 *
 * Sources: [HUBER1964] the loss; [HUBER1981] section 7.6, the covariance
 *   C = K^2 [sum psi(z_i)^2 / (n - p)] / [mean psi'(z_i)]^2 s^2 (J'J)^-1,
 *   K = 1 + (p / n) (1 - m) / m, m = mean psi'. Deviations: the scale is inflated for the
 * parameters spent, as small residuals of a strip with few steps would make it too small.
 */
import { leastSquares } from './least-squares.ts';
import type {
  LeastSquaresFit,
  LeastSquaresOptions,
  LeastSquaresProblem,
} from './least-squares-types.ts';
import { median } from './median.ts';

/** Residuals beyond this many standard deviations pull with constant force. */
const HUBER_K = 1.5;
/** Standard deviation of a normal law in units of its median absolute deviation. */
const NORMAL_MAD = 1.4826; // 1 / 0.674490

/** A robust fit and the weight it left to each residual, in (0, 1]. */
export interface RobustFit {
  readonly fit: LeastSquaresFit;
  readonly robustWeights: readonly number[];
}

/**
 * Huber's estimate of the parameters.
 *
 * @param problem - as for `leastSquares`; the scale is that of the weighted residuals
 * @param options - as for `leastSquares`
 * @returns the fit, its covariance corrected for the loss, and the weights left
 * @throws {InvalidArgumentError} as `leastSquares`
 */
export function robustLeastSquares(
  problem: LeastSquaresProblem,
  options: LeastSquaresOptions = {},
): RobustFit {
  const n = problem.residualCount;
  const prior = problem.weights ?? new Array<number>(n).fill(1);
  let fit = leastSquares(problem, options);
  let robustWeights = new Array<number>(n).fill(1);
  let scale = 0;
  if (fit.residualStandardDeviation === null) return { fit, robustWeights };
  const used = n - fit.degreesOfFreedom;
  for (let round = 0; round < 50; round++) {
    const absolute = fit.residuals.map((r, i) => Math.abs(r) * Math.sqrt(prior[i] ?? 1));
    scale = NORMAL_MAD * median(absolute) * Math.sqrt(n / Math.max(1, n - used));
    if (!(scale > 0)) break;
    const cut = HUBER_K * scale;
    const next = absolute.map((a) => (a > cut ? cut / a : 1));
    let change = 0;
    next.forEach((w, i) => (change = Math.max(change, Math.abs(w - (robustWeights[i] ?? 1)))));
    if (change < 1e-6) break;
    robustWeights = next;
    fit = leastSquares(
      {
        ...problem,
        start: fit.parameters,
        weights: next.map((w, i) => w * (prior[i] ?? 1)),
      },
      options,
    );
  }
  return { fit: withHuberCovariance(fit, prior, robustWeights, scale, options), robustWeights };
}

/** The fit with sum of squares and covariance as [HUBER1981] has them. */
function withHuberCovariance(
  fit: LeastSquaresFit,
  prior: readonly number[],
  robustWeights: readonly number[],
  scale: number,
  options: LeastSquaresOptions,
): LeastSquaresFit {
  const n = prior.length;
  const { covariance, residualStandardDeviation, degreesOfFreedom } = fit;
  const inside = robustWeights.filter((w) => w === 1).length / n;
  if (!covariance || residualStandardDeviation === null || inside === 1 || inside === 0) return fit;
  // psi(z) s = w r, in the unit of the residuals
  let psiSquare = 0;
  fit.residuals.forEach((r, i) => {
    psiSquare += ((robustWeights[i] ?? 1) * r) ** 2 * (prior[i] ?? 1);
  });
  const correction = 1 + (((n - degreesOfFreedom) / n) * (1 - inside)) / inside;
  const variance = (correction ** 2 * psiSquare) / degreesOfFreedom / inside ** 2;
  // The fit's covariance is variance_w (J'WJ)^-1, and J'WJ is close to mean(w) J'J.
  const meanWeight = robustWeights.reduce((sum, w) => sum + w, 0) / n;
  const scaled = options.weightKind === 'absolute' ? 1 : residualStandardDeviation ** 2;
  const factor =
    ((options.weightKind === 'absolute' ? correction ** 2 : variance) * meanWeight) / scaled;
  // Residuals whose squares vanish say nothing of the errors.
  if (!Number.isFinite(factor)) {
    return { ...fit, covariance: null, standardErrors: fit.standardErrors.map(() => null) };
  }
  return {
    ...fit,
    covariance: covariance.map((c) => c * factor),
    standardErrors: fit.standardErrors.map((e) => (e === null ? null : e * Math.sqrt(factor))),
    residualStandardDeviation:
      options.weightKind === 'absolute' ? residualStandardDeviation : scale,
  };
}
