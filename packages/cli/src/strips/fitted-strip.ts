/** A strip of the file with its curve. */
import {
  findSuspects,
  fitCurve,
  fitPaperCurve,
  slipSearch,
  warning,
  type CharacteristicCurve,
  type CurveFamily,
  type CurveReadings,
  type SlipSearch,
  type Warning,
} from '@wedgebook/core';
import { curveReadingsOf, type ExposureOptions, type ReadingsStrip } from '@wedgebook/notebook';

export interface FittedStrip {
  readonly strip: ReadingsStrip;
  readonly readings: CurveReadings;
  readonly exposureKind: 'absolute' | 'relative';
  readonly points: number;
  /** Null where the readings hold no curve; a warning says why. */
  readonly curve: CharacteristicCurve | null;
  /** Whether slips were looked for; null without a curve. */
  readonly slips: SlipSearch | null;
  readonly warnings: readonly Warning[];
}

/** @throws {InputError} where the strip has too few usable points, or no exposures */
export function fittedStrip(
  strip: ReadingsStrip,
  exposure: ExposureOptions,
  family: CurveFamily | undefined,
  material = strip.material ?? 'film',
): FittedStrip {
  const { readings, exposureKind, points, warnings } = curveReadingsOf(strip, exposure);
  const fit =
    family !== undefined
      ? fitCurve(readings, { family, suspects: findSuspects })
      : material === 'paper'
        ? fitPaperCurve(readings, { suspects: findSuspects })
        : fitCurve(readings, { suspects: findSuspects });
  const count = readings.densities.length + (readings.unexposedDensities?.length ?? 0);
  const common = { strip, readings, exposureKind, points };
  const noticed = [...strip.warnings, ...warnings, ...fit.warnings];
  return fit.status === 'ok'
    ? { ...common, curve: fit.curve, slips: slipSearch(fit.curve, count), warnings: noticed }
    : {
        ...common,
        curve: null,
        slips: null,
        warnings: [...noticed, warning('curve-not-determined', { reason: fit.reason })],
      };
}
