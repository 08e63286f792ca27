/**
 * A strip as the numbers that a curve is fitted to.
 *
 *   logExposure = sourceLogExposure - tabletDensity(step)   (source 0 where relative)
 *
 * Sources: none (definition of a contact wedge). Deviations: none.
 */
import type { Strip, StripRow } from './document.ts';
import { isPossibleDensity, isPossibleLogExposure } from './possible-reading.ts';
import type { TabletLookup } from './tablet-lookup.ts';

/** What a strip gives to the curve, and what had to be left out of it. */
export interface StripReadings {
  readonly logExposures: readonly number[];
  readonly densities: readonly number[];
  readonly unexposedDensities: readonly number[];
  readonly exposureKind: 'absolute' | 'relative';
  /** Cells that hold no reading. */
  readonly unreadCells: number;
  /** Steps that have readings but no exposure, neither from the tablet nor of their own. */
  readonly stepsWithoutExposure: readonly number[];
  /** Readings left out because no film has such a density, or no light gives such an exposure. */
  readonly impossible: number;
}

/**
 * Log exposure of one row.
 *
 * @returns log10 lux-seconds, or relative log exposure; null where the tablet has no such step
 */
export function rowLogExposure(row: StripRow, strip: Strip, tablets: TabletLookup): number | null {
  if (row.logExposure !== null) return row.logExposure;
  if (strip.tabletId === null) return null;
  const density = tablets(strip.tabletId)?.[row.step - 1];
  if (density === undefined) return null;
  const source = strip.exposure.kind === 'absolute' ? strip.exposure.sourceLogExposure : 0;
  return source === null ? null : source - density;
}

/**
 * Readings of a strip in the order of its rows, replicates as repeated log exposures.
 *
 * @param tablets - see `tabletLookup`
 */
export function stripReadings(strip: Strip, tablets: TabletLookup): StripReadings {
  const logExposures: number[] = [];
  const densities: number[] = [];
  const stepsWithoutExposure: number[] = [];
  let unreadCells = 0;
  let impossible = 0;
  for (const row of strip.rows) {
    const read = row.densities.filter((density) => density !== null);
    unreadCells += row.densities.length === 0 ? 1 : row.densities.length - read.length;
    if (read.length === 0) continue;
    const logExposure = rowLogExposure(row, strip, tablets);
    if (logExposure === null) {
      stepsWithoutExposure.push(row.step);
      continue;
    }
    for (const density of read) {
      if (!isPossibleDensity(density) || !isPossibleLogExposure(logExposure)) {
        impossible += 1;
        continue;
      }
      logExposures.push(logExposure);
      densities.push(density);
    }
  }
  const unexposedDensities = strip.unexposedDensities.every(isPossibleDensity)
    ? strip.unexposedDensities
    : strip.unexposedDensities.filter(isPossibleDensity);
  return {
    logExposures,
    densities,
    unexposedDensities,
    exposureKind: strip.exposure.kind,
    unreadCells,
    stepsWithoutExposure,
    impossible: impossible + strip.unexposedDensities.length - unexposedDensities.length,
  };
}
