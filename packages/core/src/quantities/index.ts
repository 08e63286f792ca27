/**
 * Quantities as people type them. A separate entry, loaded when first needed, because the units of
 * mathjs come with it.
 */
export { mixingSheet, usFluidOunces, type MixedVolume, type MixingSheet } from './mixing-sheet.ts';
export { parseDilution, readingsOfColon, type DilutionReadings } from './parse-dilution.ts';
export { parseExposure, parseTemperature, parseTime, parseVolume } from './parse-quantity.ts';
export { QuantityError, type QuantityFault } from './quantity-error.ts';
