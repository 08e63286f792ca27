/**
 * Gain laws: net density after, v, from net density before, u. Every law is stated by its gain k at
 * a reference net density r, so that k means the same in each.
 *
 *   proportional       v = k u
 *   power              v = k r (u/r)^m
 *   intensifier-safe   v = u + (k - 1) r (u/r)^m, never below u while k >= 1
 *   shift              v = max(0, u - r (1 - k)), the surface reducer
 *
 * m > 1 raises high densities more than in proportion, m < 1 low ones. The plain power law with
 * m > 1 lowers low densities where k is near 1, which no intensifier does; the safe form cannot.
 *
 * Sources: [GSE1979] and [MEES1942] for the classes of intensifiers and reducers. Deviations: the safe
 * form is the project's own: u (1 + (k-1) w(u)) with w(u) = (u/r)^(m-1).
 */
import { InvalidArgumentError } from '../errors.ts';

/** Families of gain law. */
export const GAIN_LAWS = ['proportional', 'power', 'intensifier-safe', 'shift'] as const;

export type GainLawFamily = (typeof GAIN_LAWS)[number];

/** A gain law without its gain. */
export interface GainLaw {
  readonly family: GainLawFamily;
  /** m; 1 for `proportional`, and of no account for `shift`. */
  readonly exponent: number;
  /** r, net density at which the gain is stated, > 0. */
  readonly referenceDensity: number;
}

/** Net density at which gains are stated unless another is given: a full highlight. */
export const REFERENCE_NET_DENSITY = 1.2;

/** The plainest law. */
export const PROPORTIONAL: GainLaw = {
  family: 'proportional',
  exponent: 1,
  referenceDensity: REFERENCE_NET_DENSITY,
};

/** v with its derivatives, as the fits need them. */
export interface GainDerivatives {
  readonly value: number;
  readonly byDensity: number;
  readonly byGain: number;
  readonly byExponent: number;
  readonly byDensityAndGain: number;
  readonly byDensityAndExponent: number;
}

/**
 * Net density after treatment.
 *
 * @param netDensity - u, net density before; a reading slightly below zero is passed through the
 *   proportional law
 * @param gain - k at the law's reference density, > 0
 * @param law - the gain law
 * @returns v, net density after
 * @throws InvalidArgumentError if an argument is not finite, or gain, exponent or reference
 *   density not above zero
 * @source [GSE1979], [MEES1942]
 * @example
 * treatedNetDensity(1, 1.5, PROPORTIONAL); // => 1.5
 */
export function treatedNetDensity(netDensity: number, gain: number, law: GainLaw): number {
  return gainDerivatives(netDensity, gain, law).value;
}

/**
 * The same with derivatives by u, k and m.
 *
 * @throws InvalidArgumentError as `treatedNetDensity`
 */
export function gainDerivatives(netDensity: number, gain: number, law: GainLaw): GainDerivatives {
  const { family, exponent: m, referenceDensity: r } = law;
  if (!Number.isFinite(netDensity)) {
    throw new InvalidArgumentError('treatedNetDensity', 'netDensity', netDensity, 'finite');
  }
  for (const [name, value] of Object.entries({ gain, exponent: m, referenceDensity: r })) {
    if (!(value > 0 && value < Infinity)) {
      throw new InvalidArgumentError('treatedNetDensity', name, value, 'a number above zero');
    }
  }
  const u = netDensity;
  if (family === 'shift') {
    const shifted = u - r * (1 - gain);
    return shifted > 0 || u <= 0
      ? { ...ZERO, value: u <= 0 ? u : shifted, byDensity: 1, byGain: u <= 0 ? 0 : r }
      : ZERO;
  }
  if (family === 'proportional' || u <= 0) {
    return { ...ZERO, value: gain * u, byDensity: gain, byGain: u, byDensityAndGain: 1 };
  }
  const power = (u / r) ** m;
  const log = Math.log(u / r);
  const slope = (m * r * power) / u; // d (r (u/r)^m) / d u
  const slopeByExponent = (r * power * (1 + m * log)) / u;
  const factor = family === 'power' ? gain : gain - 1;
  const own = family === 'power' ? 0 : 1;
  return {
    value: own * u + factor * r * power,
    byDensity: own + factor * slope,
    byGain: r * power,
    byExponent: factor * r * power * log,
    byDensityAndGain: slope,
    byDensityAndExponent: factor * slopeByExponent,
  };
}

const ZERO: GainDerivatives = {
  value: 0,
  byDensity: 0,
  byGain: 0,
  byExponent: 0,
  byDensityAndGain: 0,
  byDensityAndExponent: 0,
};
