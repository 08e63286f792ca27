/**
 * What is odd about the readings of a strip before any curve is fitted.
 *
 * Densities beyond the limits are errors of the caller's input and are refused at the edge (CSV
 * reader, worksheet); here they only bound what is accepted.
 *
 * Replicates that differ by more than any densitometer scatters are told too: a slip of the pen, or
 * two strips under one name.
 *
 * Sources: limits are the project's own: a density below -0.5 or above 6 comes from no film and
 * no instrument; a small negative one is an instrument zeroed on something denser. Deviations: none.
 */
import { warning, type Warning } from '../warning.ts';
import type { CurveReadings } from './curve-readings.ts';
import { poolReplicates, type PooledStep } from './pool-replicates.ts';

/** Densities outside these limits are refused as slips of the pen. */
export const DENSITY_LIMITS = { lowest: -0.5, highest: 6 } as const;

/** A drop from the highest density larger than this, at greater exposure, is more than noise. */
const NOTABLE_FALL = 0.06;
/** Readings of one step this far apart are no scatter: five times a working densitometer's error. */
const NOTABLE_SPREAD = 0.1;

/**
 * Warnings about one strip: densities that fall with exposure, slightly negative densities, and
 * replicates that disagree.
 *
 * @param readings - densities by log exposure, any order
 * @returns warnings, empty when nothing is odd
 * @throws InvalidArgumentError if the arrays differ in length or hold a value that is not finite
 */
export function checkReadings(readings: CurveReadings): Warning[] {
  const warnings: Warning[] = [];
  const { steps } = poolReplicates(readings);
  const exposed = steps.filter((step) => step.logExposure > -Infinity);

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

  const apart = steps.filter((step) => spreadOf(step) > NOTABLE_SPREAD);
  if (apart.length > 0) {
    const { logExposure, densityRange } = apart.reduce((a, b) =>
      spreadOf(b) > spreadOf(a) ? b : a,
    );
    warnings.push(
      warning('replicates-disagree', {
        count: apart.length,
        ...(Number.isFinite(logExposure) && { logExposure }),
        lowest: densityRange[0],
        highest: densityRange[1],
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

const spreadOf = ({ densityRange: [lowest, highest] }: PooledStep): number => highest - lowest;
