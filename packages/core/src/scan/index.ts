export type { GreyImage } from './grey-image.ts';
export { pointOnStrip, stripAxes } from './strip-place.ts';
export type { PicturePoint, StripPlace } from './strip-place.ts';
export { findPatches } from './find-patches.ts';
export type { PatchRow } from './find-patches.ts';
export { robustMean } from './robust-mean.ts';
export { scannerResponse } from './scanner-response.ts';
export type { ScannedDensity, ScannerResponse } from './scanner-response.ts';
export { readScan } from './read-scan.ts';
export type {
  MarkedStrip,
  ReadScanInput,
  ScanFault,
  ScannedPatch,
  ScanReading,
  ScanResult,
  TabletPatch,
} from './read-scan.ts';
