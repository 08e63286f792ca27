/**
 * What is odd about the readings of a strip before any curve is fitted.
 *
 * Densities beyond the limits are errors of the caller's input and are refused at the edge (CSV
 * reader, worksheet); here they only bound what is accepted.
 *
 * Sources: limits are the project's own: a density below -0.5 or above 6 comes from no film and
 * no instrument; a small negative one is an instrument zeroed on something denser. Deviations: none.
 */
import { warning, type Warning } from '../warning.ts';
import type { CurveReadings } from './curve-readings.ts';
import { poolReplicates } from './pool-replicates.ts';

/** Densities outside these limits are refused as slips of the pen. */
export const DENSITY_LIMITS = { lowest: -0.5, highest: 6 } as const;

/** A drop from the highest density larger than this, at greater exposure, is more than noise. */
const NOTABLE_FALL = 0.06;

/**
 * Warnings about one strip: densities that fall with exposure, slightly negative densities.
 *
 * @param readings - densities by log exposure, any order
 * @returns warnings, empty when nothing is odd
 * @throws InvalidArgumentError if the arrays differ in length or hold a value that is not finite
 */
export function checkReadings(readings: CurveReadings): Warning[] {
  const warnings: Warning[] = [];
  const exposed = poolReplicates(readings).steps.filter((step) => step.logExposure > -Infinity);

  const negative = [...readings.densities, ...(readings.unexposedDensities ?? [])].filter(
    (density) => density < 0,
  );
  if (negative.length > 0) {
    warnings.push(
      warning('density-slightly-negative', {
        count: negative.length,
        lowest: Math.min(...negative),
      }),
    );
  }

  const first = exposed[0];
  const last = exposed.at(-1);
  if (first === undefined || last === undefined || first === last) return warnings;
  let peak = first;
  for (const step of exposed) if (step.meanDensity > peak.meanDensity) peak = step;
  const whole = first.meanDensity - last.meanDensity > NOTABLE_FALL;
  const end = peak.meanDensity - last.meanDensity > NOTABLE_FALL;
  if (whole || end) {
    warnings.push(
      warning('density-falls-with-exposure', {
        kind: whole ? 'reversed' : 'solarised',
        peakLogExposure: peak.logExposure,
        peakDensity: peak.meanDensity,
        lastDensity: last.meanDensity,
      }),
    );
  }
  return warnings;
}
