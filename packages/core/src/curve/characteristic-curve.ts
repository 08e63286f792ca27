/**
 * The characteristic curve: density over log exposure, as plain data that can be stored, compared
 * and sent to a worker. The functions of this room read it.
 *
 * Sources: [HD1890] for the curve and its straight part. Deviations: none.
 */

/** Families of curves, by the names that the command and the app show. */
export const CURVE_FAMILIES = [
  'toe-shoulder',
  'logistic-4',
  'logistic-5',
  'hurter-driffield',
  'monotone-smooth',
  'as-drawn',
] as const;

export type CurveFamily = (typeof CURVE_FAMILIES)[number];

/** A fitted curve and all that is needed to draw it, invert it and tell its errors. */
export interface CharacteristicCurve {
  readonly family: CurveFamily;
  /** Fitted parameters; a `toe-shoulder` curve without a determined shoulder has only its first four. */
  readonly parameters: readonly number[];
  readonly parameterNames: readonly string[];
  /** Covariance of the parameters, row by row, p x p; null for a curve that has no error model. */
  readonly covariance: readonly number[] | null;
  /** Knots of the piecewise families, log exposure ascending; empty for the others. */
  readonly knots: readonly number[];
  /** Least and greatest log exposure of the readings. */
  readonly logExposureRange: readonly [number, number];
  /** Lowest and highest density read. */
  readonly densityRangeRead: readonly [number, number];
  /** Standard deviation of a reading about the curve, or null when it passes through them all. */
  readonly residualStandardDeviation: number | null;
  readonly degreesOfFreedom: number;
  /**
   * Rival forms that the readings hardly tell from this one, with their weights. They widen the
   * standard errors of every measure (unconditional errors); they are not drawn.
   */
  readonly companions: readonly CurveCompanion[];
  /** Weight of this form among itself and its companions, 1 when it has none. */
  readonly weight: number;
}

/** A rival form: a curve of its own without companions. */
export interface CurveCompanion {
  readonly curve: CharacteristicCurve;
  readonly weight: number;
}
