/**
 * What a fit of a characteristic curve hands back, and what every fit has to say of itself.
 */
import { toeShoulder, type SuspectReading } from '../fitting/index.ts';
import { warning, type Warning } from '../warning.ts';
import type { CharacteristicCurve } from './characteristic-curve.ts';
import { derivedBaseFog } from './derived.ts';
import type { SortedReadings } from './sort-readings.ts';

export type CurveFit =
  | {
      readonly status: 'ok';
      readonly curve: CharacteristicCurve;
      /** Readings to look at again, the farthest from the curve first; they are in the fit. */
      readonly suspects: readonly SuspectReading[];
      readonly warnings: readonly Warning[];
    }
  | {
      readonly status: 'not-determined';
      /** Why there is no curve. */
      readonly reason: 'too-few-readings' | 'no-density-rise' | 'fit-failed';
      readonly warnings: readonly Warning[];
    };

/** Fewest different steps that a curve is fitted to. */
export const FEWEST_STEPS = 4;
/** A strip whose densities span less than this holds no curve. */
const LEAST_RISE = 0.02;
/** Fitted base + fog this far below the lowest reading is an extrapolation worth a word. */
const NOTABLE_DROP = 0.02;

/** Why readings hold no curve; null where they may. */
export function unfit(sorted: SortedReadings): 'too-few-readings' | 'no-density-rise' | null {
  if (sorted.stepCount < FEWEST_STEPS) return 'too-few-readings';
  const [lowest, highest] = sorted.densityRange;
  return highest - lowest >= LEAST_RISE ? null : 'no-density-rise';
}

/** What the readings left open: the shoulder, base + fog. */
export function fitWarnings(curve: CharacteristicCurve, sorted: SortedReadings): Warning[] {
  const warnings: Warning[] = [];
  if (
    curve.family === 'toe-shoulder' &&
    curve.parameters.length < toeShoulder.parameterNames.length
  ) {
    warnings.push(
      warning('shoulder-not-determined', { lastLogExposure: sorted.logExposureRange[1] }),
    );
  }
  const drop = sorted.densityRange[0] - derivedBaseFog(curve).value;
  if (sorted.unexposedCount === 0 && drop > NOTABLE_DROP) {
    warnings.push(warning('base-fog-extrapolated', { drop, lowest: sorted.densityRange[0] }));
  }
  return warnings;
}
