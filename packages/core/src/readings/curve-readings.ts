/**
 * The readings of one strip as the curve room takes them.
 */

/**
 * Densities read on one exposed and processed strip. A step read several times stands as several
 * entries with the same log exposure. The order is free; nothing is sorted in place.
 */
export interface CurveReadings {
  /** log10 of lux-seconds, or relative log exposure; one entry per reading. */
  readonly logExposures: readonly number[];
  /** Density read at each log exposure. */
  readonly densities: readonly number[];
  /** Densities read where no light fell: base + fog. */
  readonly unexposedDensities?: readonly number[];
}
