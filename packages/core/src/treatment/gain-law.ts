/**
 * Gain laws: net density after, v, from net density before, u. Every law is stated by its gain k at
 * a reference net density r, so that k means the same in each.
 *
 *   proportional       v = k u
 *   power              v = k r (u/r)^m
 *   intensifier-safe   v = u + (k - 1) r (u/r)^m, never below u while k >= 1
 *   shift              v = max(0, u - r (1 - k)), the surface reducer, k <= 1
 *
 * m > 1 raises high densities more than in proportion, m < 1 low ones. The plain power law with
 * m > 1 lowers low densities where k is near 1, which no intensifier does; the safe form cannot.
 *
 * Sources: [GSE1979] and [MEES1942] for the classes of intensifiers and reducers. Deviations: the safe
 * form is the project's own: u (1 + (k-1) w(u)) with w(u) = (u/r)^(m-1). Below net density 0.002,
 * where no reading tells anything, the laws with an exponent run straight to the origin: a power
 * below 1 would be infinitely steep there.
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

/** Net density below which the laws with an exponent run straight to the origin. */
const STRAIGHT_BELOW = 0.002;

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
 * @param netDensity - u, net density before; a reading may lie slightly below zero
 * @param gain - k at the law's reference density, > 0
 * @param law - the gain law
 * @returns v, net density after
 * @throws InvalidArgumentError if an argument is not finite, or gain, exponent or reference
 *   density not above zero, or the gain of the shift law above 1
 * @source [GSE1979], [MEES1942]
 * @example
 * treatedNetDensity(1, 1.5, PROPORTIONAL); // => 1.5
 */
export function treatedNetDensity(netDensity: number, gain: number, law: GainLaw): number {
  if (!Number.isFinite(netDensity)) {
    throw new InvalidArgumentError('treatedNetDensity', 'netDensity', netDensity, 'finite');
  }
  const { exponent, referenceDensity } = law;
  for (const [name, value] of Object.entries({ gain, exponent, referenceDensity })) {
    if (!(value > 0 && value < Infinity)) {
      throw new InvalidArgumentError('treatedNetDensity', name, value, 'a number above zero');
    }
  }
  if (law.family === 'shift' && gain > 1) {
    throw new InvalidArgumentError('treatedNetDensity', 'gain', gain, 'at most 1 for a reducer');
  }
  return gainDerivatives(netDensity, gain, law).value;
}

/** The same with derivatives by u, k and m. Inner loops call it: arguments are not checked. */
export function gainDerivatives(netDensity: number, gain: number, law: GainLaw): GainDerivatives {
  const { family, exponent: m, referenceDensity: r } = law;
  const u = netDensity;
  if (family === 'shift') {
    const shifted = u - r * (1 - gain);
    return shifted > 0 || u <= 0
      ? { ...ZERO, value: u <= 0 ? u : shifted, byDensity: 1, byGain: u <= 0 ? 0 : r }
      : ZERO;
  }
  if (family === 'proportional') {
    return { ...ZERO, value: gain * u, byDensity: gain, byGain: u, byDensityAndGain: 1 };
  }
  const straight = u < STRAIGHT_BELOW;
  const at = straight ? STRAIGHT_BELOW : u;
  const shape = (at / r) ** (m - 1);
  const log = Math.log(at / r);
  const factor = family === 'power' ? gain : gain - 1;
  const own = family === 'power' ? 0 : 1;
  // On the straight piece the slope is the chord's, above it the power's own, m times as much.
  const bend = straight ? 1 : m;
  const bendByExponent = straight ? log : 1 + m * log;
  return {
    value: u * (own + factor * shape),
    byDensity: own + bend * factor * shape,
    byGain: u * shape,
    byExponent: u * factor * shape * log,
    byDensityAndGain: bend * shape,
    byDensityAndExponent: factor * shape * bendByExponent,
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
