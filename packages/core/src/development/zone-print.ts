/**
 * The print tone of one zone, with its error.
 *
 *   x  = Q (D(white) - D(zone))                     log exposure above the one that just darkens
 *   P  = P_0 + N(x),   L* = L*(P)
 *   var P = N'(x)² (Q² var(D(white) - D(zone)) + (D(white) - D(zone))² var Q) + var N(x)
 *
 * Both densities lie on one curve, so that their errors mostly cancel. var N is the paper's own where
 * it is known by a strip, and left out where a curve made for a scale stands in.
 *
 * Sources: [Seber2003] section 5.1, the delta method; [CIE15] lightness. Deviations: the densities of
 * a paper at a setting or in mixed light count as exact.
 */
import {
  constant,
  derivedDensity,
  derivedNetPoint,
  estimateOn,
  plus,
  shifted,
  type CharacteristicCurve,
} from '../curve/index.ts';
import type { Estimate } from '../estimate.ts';
import {
  lightnessFromDensity,
  lightnessGradient,
  printTone,
  THRESHOLD_NET_DENSITY,
  type PrintPaper,
} from '../paper/index.ts';

export interface ZonePrint {
  /** Reflection density, paper white included. */
  readonly density: Estimate;
  /** CIE L*, 0 to 100. */
  readonly lightness: Estimate;
}

/**
 * Print of a zone.
 *
 * @param curve - of the negative
 * @param logExposure - of the zone
 * @param whiteLogExposure - of the zone that prints just darker than white
 * @param paper - paper to print on
 * @param whiteDensity - density of the unexposed paper
 * @param callierFactor - Q, with its standard error where it was measured
 */
export function zonePrint(
  curve: CharacteristicCurve,
  logExposure: number,
  whiteLogExposure: number,
  paper: PrintPaper,
  whiteDensity: number,
  callierFactor: Estimate,
): ZonePrint {
  const range = estimateOn(curve, (c) =>
    plus(
      derivedDensity(c, constant(c, whiteLogExposure)),
      derivedDensity(c, constant(c, logExposure)),
      -1,
    ),
  );
  const above = callierFactor.value * (range?.value ?? 0);
  const { netDensity, gradient } = printTone(paper, above);
  const ofPaper =
    paper.kind === 'strip'
      ? (estimateOn(paper.curve, (c) => {
          const threshold = derivedNetPoint(c, THRESHOLD_NET_DENSITY);
          return threshold && derivedDensity(c, shifted(threshold, above));
        })?.standardError ?? 0)
      : 0;
  const ofNegative = range?.standardError ?? null;
  const ofFactor = (range?.value ?? 0) * (callierFactor.standardError ?? 0);
  const error =
    ofNegative === null
      ? null
      : Math.hypot(gradient * callierFactor.value * ofNegative, gradient * ofFactor, ofPaper);
  const density = whiteDensity + netDensity;
  return {
    density: { value: density, standardError: error },
    lightness: {
      value: lightnessFromDensity(density),
      standardError: error === null ? null : Math.abs(lightnessGradient(density)) * error,
    },
  };
}
