/**
 * How long paper may lie under the safelight, from a pre-exposed patch covered step by step.
 *
 *   ΔD = G log10(1 + t/τ)        light adds to the pre-exposure; G gradient of the paper at the patch
 *   10^(ΔD/G) - 1 = t/τ          a line through the origin, fitted by least squares
 *   safe minutes: ΔD = 0.02 at the upper 95 % limit of 1/τ
 *
 * Sources: additive light (derived); a patch pre-exposed to net 0.15 to 0.40 [SAFELIGHT]. Deviations:
 * the rise that counts as fog, 0.02, is the project's own: about what can be seen side by side.
 */
import { InvalidArgumentError } from '../errors.ts';
import type { Estimate } from '../estimate.ts';
import { studentTQuantile } from '../fitting/index.ts';

/** One part of the patch. */
export interface SafelightReading {
  /** Under the safelight; 0 for the part that was covered all along. */
  readonly minutes: number;
  readonly density: number;
}

export interface SafelightOptions {
  /** Gradient of the paper at the patch; 1 unless known. */
  readonly gradient?: number;
  /** Rise that counts as fog; 0.02 unless given. */
  readonly tolerance?: number;
  /** Density of the unexposed paper, to check the pre-exposure; 0.06 unless given. */
  readonly paperWhiteDensity?: number;
}

export type SafelightResult =
  | {
      readonly status: 'ok';
      /** Minutes at which the rise reaches the tolerance. */
      readonly fogMinutes: Estimate;
      /** Lower limit of that, one-sided 95 %. */
      readonly safeMinutes: number;
      /** False where the patch was too light or too dark to be at its most sensitive. */
      readonly patchInRange: boolean;
    }
  | {
      /** No fog is seen: safe for at least this long. */
      readonly status: 'no-fog-seen';
      readonly atLeastMinutes: number;
      readonly patchInRange: boolean;
    }
  | { readonly status: 'not-determined'; readonly reason: 'no-covered-part' | 'too-few' };

/** Net density of the pre-exposure that shows fog best, published. */
export const PRE_EXPOSED_NET: readonly [number, number] = [0.15, 0.4];

/**
 * Evaluates a safelight test.
 *
 * @param readings - densities by minutes, one or more of them at 0 minutes and three or more beyond
 * @param options - gradient, tolerance
 * @throws InvalidArgumentError if a reading is not finite, a time below zero or an option out of range
 */
export function safelightTest(
  readings: readonly SafelightReading[],
  options: SafelightOptions = {},
): SafelightResult {
  const { gradient = 1, tolerance = 0.02, paperWhiteDensity = 0.06 } = options;
  for (const { minutes, density } of readings) {
    if (!(minutes >= 0 && minutes < Infinity && Number.isFinite(density))) {
      throw new InvalidArgumentError(
        'safelightTest',
        'readings',
        readings,
        'minutes and densities',
      );
    }
  }
  for (const [name, value, high] of [
    ['gradient', gradient, 20],
    ['tolerance', tolerance, 0.5],
  ] as const) {
    if (!(value > 0 && value <= high)) {
      throw new InvalidArgumentError('safelightTest', name, value, `above 0, up to ${high}`);
    }
  }
  const covered = readings.filter(({ minutes }) => minutes === 0);
  const lit = readings.filter(({ minutes }) => minutes > 0);
  if (covered.length === 0) return { status: 'not-determined', reason: 'no-covered-part' };
  if (lit.length < 3) return { status: 'not-determined', reason: 'too-few' };
  const zero = covered.reduce((sum, { density }) => sum + density, 0) / covered.length;
  const net = zero - paperWhiteDensity;
  const patchInRange = net >= PRE_EXPOSED_NET[0] - 1e-9 && net <= PRE_EXPOSED_NET[1] + 1e-9;
  const extra = lit.map(({ minutes, density }) => ({
    minutes,
    light: 10 ** ((density - zero) / gradient) - 1,
  }));
  const squares = extra.reduce((sum, { minutes }) => sum + minutes * minutes, 0);
  const rate = extra.reduce((sum, { minutes, light }) => sum + minutes * light, 0) / squares;
  const freedom = extra.length - 1;
  const variance =
    extra.reduce((sum, { minutes, light }) => sum + (light - rate * minutes) ** 2, 0) / freedom;
  // The covered part has the scatter of a reading too, and every rise is counted from it.
  const shared = extra.reduce((sum, { minutes }) => sum + minutes, 0) / squares;
  const rateError = Math.sqrt(variance * (1 / squares + (shared * shared) / covered.length));
  const bearable = 10 ** (tolerance / gradient) - 1;
  const upper = rate + studentTQuantile(0.95, freedom) * rateError;
  const longest = Math.max(...lit.map(({ minutes }) => minutes));
  if (!(upper > 0) || bearable / upper >= longest) {
    return { status: 'no-fog-seen', atLeastMinutes: longest, patchInRange };
  }
  const safeMinutes = bearable / upper;
  if (!(rate > 0)) return { status: 'no-fog-seen', atLeastMinutes: safeMinutes, patchInRange };
  const fog = bearable / rate;
  return {
    status: 'ok',
    fogMinutes: { value: fog, standardError: (fog * rateError) / rate },
    safeMinutes,
    patchInRange,
  };
}
