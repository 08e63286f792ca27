/**
 * The exposures of a strip from a file, absolute or relative.
 *
 *   logExposure = log_exposure, or sourceLogExposure - tablet density
 *
 * Sources: none (definition of a contact wedge). Deviations: none.
 */
import { warning, type CurveReadings, type Warning } from '@wedgebook/core';
import type { Place } from '../notebook-error.ts';
import { inputFault } from '../wording/input-fault.ts';
import type { ReadingsStrip, StepReading } from './readings-strip.ts';

export interface ExposureOptions {
  /** How a column `log_exposure` is meant; absolute, with a warning, where nothing is said. */
  readonly logExposure?: 'absolute' | 'relative';
  /** log10 of the lux-seconds without the tablet: makes tablet densities absolute. */
  readonly sourceLogExposure?: number;
  /** Densities of step 1, step 2, ... for rows that have a step and nothing else. */
  readonly tabletDensities?: readonly number[];
  readonly file?: string;
}

export interface StripCurveReadings {
  readonly readings: CurveReadings;
  readonly exposureKind: 'absolute' | 'relative';
  /** Number of different exposures with at least one reading. */
  readonly points: number;
  readonly warnings: readonly Warning[];
}

/** A curve is fitted to at least this many different exposures. */
export const FEWEST_POINTS = 4;

/**
 * @param fewest - different exposures that are needed; a pair of trial pieces does with one
 * @throws {InputError} `too-few-points`, `mixed-exposures`, `step-outside-tablet`, `no-exposure`
 */
export function curveReadingsOf(
  strip: ReadingsStrip,
  options: ExposureOptions = {},
  fewest = FEWEST_POINTS,
): StripCurveReadings {
  const place: Place = options.file === undefined ? {} : { file: options.file };
  const { sourceLogExposure: source, logExposure: stated } = options;
  const logExposures: number[] = [];
  const densities: number[] = [];
  // A strip of a file unpacks its readings each time that it is asked for them.
  const { readings } = strip;
  let written = 0;
  for (const reading of readings) {
    if (reading.logExposure !== null) written += 1;
    // Exposures of unread steps are looked at too: a wrong step is a fault, read or not.
    const logExposure =
      reading.logExposure ?? (source ?? 0) - tabletDensityOf(reading, options, place);
    if (reading.density === null) continue;
    logExposures.push(logExposure || 0);
    densities.push(reading.density);
  }
  if (written > 0 && written < readings.length && source === undefined) {
    throw inputFault.mixedExposures({ ...place, row: strip.firstRow }, strip.name);
  }
  const points = new Set(logExposures).size;
  if (points < fewest) {
    throw inputFault.tooFewPoints(
      { ...place, row: strip.lastRow, column: 'density' },
      strip.name,
      points,
      fewest,
    );
  }
  const absolute =
    stated === undefined ? written > 0 || source !== undefined : stated === 'absolute';
  const assumed = stated === undefined && written > 0 && strip.exposureStated !== true;
  return {
    readings: { logExposures, densities, unexposedDensities: strip.unexposedDensities },
    exposureKind: absolute ? 'absolute' : 'relative',
    points,
    warnings: assumed ? [warning('exposure-assumed-absolute')] : [],
  };
}

function tabletDensityOf(
  { tabletDensity, step, row }: StepReading,
  { tabletDensities }: ExposureOptions,
  place: Place,
): number {
  if (tabletDensity !== null) return tabletDensity;
  if (step === null || tabletDensities === undefined)
    throw inputFault.noExposure({ ...place, row });
  const density = tabletDensities[step - 1];
  if (density === undefined) {
    throw inputFault.stepOutsideTablet(
      { ...place, row, column: 'step' },
      step,
      tabletDensities.length,
    );
  }
  return density;
}
