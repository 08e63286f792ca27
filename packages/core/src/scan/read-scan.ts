/**
 * Densities of a strip from a picture in which a known tablet lies beside it.
 *
 * Steps are found between the marked ends and averaged; the tablet's give the response of the
 * scanner, and the strip's are read by it. What lies beyond the tablet's densities is given no
 * number.
 *
 * Sources: see `find-patches.ts`, `average-patch.ts`, `light-field.ts`, `scanner-response.ts`.
 * Deviations: none.
 */
import { InvalidArgumentError } from '../errors.ts';
import { warning, type Warning } from '../warning.ts';
import { averagePatch, type PatchAverage } from './average-patch.ts';
import { findPatches, type PatchRow } from './find-patches.ts';
import { checkImage, type GreyImage } from './grey-image.ts';
import { lightField, type LightField, type PictureRegion } from './light-field.ts';
import { scanWarnings } from './scan-warnings.ts';
import {
  FEWEST_TABLET_STEPS,
  scannerResponse,
  type Darkness,
  type ScannedDensity,
  type ScannerResponse,
} from './scanner-response.ts';
import { pointOnStrip, stripAxes, type StripPlace } from './strip-place.ts';
import { darknessOf } from './strip-profile.ts';

/** A strip as it was marked. */
export interface MarkedStrip {
  readonly place: StripPlace;
  /** Steps between its ends. */
  readonly count: number;
}

export interface ReadScanInput {
  readonly image: GreyImage;
  /** The known tablet. */
  readonly tablet: MarkedStrip;
  /** Its densities from step 1 on, as many as it has steps; null for one that is not known. */
  readonly tabletDensities: readonly (number | null)[];
  readonly strip: MarkedStrip;
  /** True for a file in which light and dark were exchanged. */
  readonly inverted?: boolean;
}

/** One step of the strip as read. */
export interface ScannedPatch {
  readonly average: PatchAverage;
  readonly darkness: Darkness;
  /** Its density, or on which side of the tablet it lies, or that the file was at its limit. */
  readonly density: ScannedDensity | { readonly status: 'clipped' };
}

/** One step of the tablet. */
export interface TabletPatch {
  readonly average: PatchAverage;
  readonly darkness: Darkness;
  readonly knownDensity: number | null;
  /** Density by the fitted response less the known one; null where it took no part. */
  readonly difference: number | null;
}

export interface ScanReading {
  readonly status: 'ok';
  readonly patches: readonly ScannedPatch[];
  readonly tablet: readonly TabletPatch[];
  /** Where the steps were found, for drawing. */
  readonly rows: { readonly strip: PatchRow; readonly tablet: PatchRow };
  readonly response: ScannerResponse;
  /** Whether the evenness of the light was measured from bare light, and its span in density. */
  readonly light: { readonly measured: boolean; readonly span: number | null };
  readonly warnings: readonly Warning[];
}

/** Why a picture could not be read. */
export type ScanFault =
  | 'strip-not-found'
  | 'tablet-not-found'
  | 'too-few-tablet-steps'
  | 'tablet-turned'
  | 'tablet-does-not-fit';

export type ScanResult =
  | ScanReading
  | {
      readonly status: 'not-determined';
      readonly reason: ScanFault;
      readonly warnings: readonly Warning[];
    };

/** Pixels at the limit of the file beyond which a step's mean is no measure. */
const MOST_CLIPPED = 0.05;
/** A tablet that scatters by more than this about any response is not the one named. */
const WORST_TABLET = 0.12;

/**
 * Reads a strip from a picture.
 *
 * @param input - one channel of the picture, the two strips as marked, the tablet's densities
 * @returns densities with standard errors and what was odd, or why nothing can be read
 * @throws InvalidArgumentError if the picture, a place, a count or a density is no such thing
 */
export function readScan(input: ReadScanInput): ScanResult {
  const { tablet, strip, tabletDensities, inverted = false } = input;
  checkImage('readScan', input.image);
  if (tabletDensities.length !== tablet.count) {
    throw new InvalidArgumentError('readScan', 'tabletDensities', tabletDensities, 'one a step');
  }
  const image = inverted ? invertedImage(input.image) : input.image;
  const tabletRow = findPatches(image, tablet.place, tablet.count);
  const tabletAverages = tabletRow && averages(image, tablet, tabletRow);
  if (tabletRow === null || tabletAverages === null) return not('tablet-not-found');
  const stripRow = findPatches(image, strip.place, strip.count);
  const stripAverages = stripRow && averages(image, strip, stripRow);
  if (stripRow === null || stripAverages === null) return not('strip-not-found');

  const thinnest = Math.min(
    ...[...tabletAverages, ...stripAverages].map(({ signal }) =>
      darknessOf(signal * image.greatest, image),
    ),
  );
  const field = lightField(image, regionOf(image, [tablet.place, strip.place]), thinnest);
  const read = (average: PatchAverage): Darkness => darkness(average, image, field);
  const known = tabletAverages.flatMap((average) => {
    const density = tabletDensities[average.step - 1] ?? null;
    return density === null || average.clipped > MOST_CLIPPED || !(average.signal > 0)
      ? []
      : [{ density, read: read(average) }];
  });
  if (new Set(known.map(({ density }) => density)).size < FEWEST_TABLET_STEPS) {
    return not('too-few-tablet-steps');
  }
  if (!rises(known)) return not('tablet-turned');
  const response = scannerResponse(
    known.map(({ density }) => density),
    known.map((each) => each.read),
  );
  if (!(response.tabletScatter <= WORST_TABLET)) return not('tablet-does-not-fit');

  const patches = stripAverages.map((average): ScannedPatch => {
    const at = read(average);
    const clipped = average.clipped > MOST_CLIPPED || !(average.signal > 0);
    return {
      average,
      darkness: at,
      density: clipped ? { status: 'clipped' } : response.densityOf(at),
    };
  });
  const tabletPatches = tabletAverages.map((average): TabletPatch => {
    const at = read(average);
    const knownDensity = tabletDensities[average.step - 1] ?? null;
    const again = average.clipped > MOST_CLIPPED ? null : response.densityOf(at);
    const difference =
      knownDensity === null || again?.status !== 'ok' ? null : again.value - knownDensity;
    return { average, darkness: at, knownDensity, difference };
  });
  const light = { measured: field !== null, span: field?.span ?? null };
  return {
    status: 'ok',
    patches,
    tablet: tabletPatches,
    rows: { strip: stripRow, tablet: tabletRow },
    response,
    light,
    warnings: scanWarnings({ image, patches, tablet: tabletPatches, response, light }),
  };
}

function not(reason: ScanFault): ScanResult {
  return { status: 'not-determined', reason, warnings: [warning('scan-not-read', { reason })] };
}

function invertedImage(image: GreyImage): GreyImage {
  return { ...image, values: image.values.map((value) => image.greatest - value) };
}

function averages(image: GreyImage, strip: MarkedStrip, row: PatchRow): PatchAverage[] | null {
  const axes = stripAxes(strip.place);
  const all: PatchAverage[] = [];
  for (let step = 1; step <= strip.count; step++) {
    const average = averagePatch(image, strip.place, axes, row, step);
    if (average === null) return null;
    all.push(average);
  }
  return all;
}

function darkness(average: PatchAverage, image: GreyImage, field: LightField | null): Darkness {
  const value = darknessOf(average.signal * image.greatest, image);
  const signal = Math.max(average.signal, 10 ** -value);
  return {
    darkness: value - (field?.at(average.middle) ?? 0),
    standardError: Math.hypot(
      average.standardError / (signal * Math.LN10),
      field?.standardError ?? 0,
    ),
  };
}

/** Both strips with half their width around them. */
function regionOf(image: GreyImage, places: readonly StripPlace[]): PictureRegion {
  const corners = places.flatMap((place) => {
    const axes = stripAxes(place);
    return [-1, 1].flatMap((side) =>
      [-0.25 * place.width, axes.length + 0.25 * place.width].map((along) =>
        pointOnStrip(place, axes, along, side * place.width),
      ),
    );
  });
  const xs = corners.map(({ x }) => x);
  const ys = corners.map(({ y }) => y);
  return {
    left: Math.max(0, Math.min(...xs)),
    top: Math.max(0, Math.min(...ys)),
    right: Math.min(image.width, Math.max(...xs)),
    bottom: Math.min(image.height, Math.max(...ys)),
  };
}

/** Whether darkness rises with density, judged by the means of the thin and the dense half. */
function rises(known: readonly { readonly density: number; readonly read: Darkness }[]): boolean {
  const sorted = known.toSorted((a, b) => a.density - b.density);
  const half = Math.floor(sorted.length / 2);
  const mean = (part: typeof sorted): number =>
    part.reduce((sum, { read }) => sum + read.darkness, 0) / part.length;
  return mean(sorted.slice(-half)) > mean(sorted.slice(0, half));
}
