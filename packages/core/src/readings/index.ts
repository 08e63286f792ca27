export type { CurveReadings } from './curve-readings.ts';
export {
  LOG_STOP,
  densityFromMatchedTimes,
  densityFromStops,
  densityFromTransmittance,
  stopsFromDensity,
  transmittanceFromDensity,
} from './units.ts';
export {
  cameraLogExposures,
  contactLogExposures,
  nominalTablet,
  type NominalTabletOptions,
} from './tablet.ts';
export { poolReplicates, type PooledReadings, type PooledStep } from './pool-replicates.ts';
export { checkReadings, DENSITY_LIMITS } from './check-readings.ts';
export { lightFromSrgb, srgbFromLight } from './srgb.ts';
export { powerCorrectedTime, schwarzschildTime } from './reciprocity.ts';
export {
  meteredDensity,
  meterReadingOf,
  type MeterBase,
  type MeterScale,
} from './metered-density.ts';
