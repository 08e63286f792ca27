/**
 * A paper at any setting of its map, between the strips as well as at them.
 *
 *   ln S(p), x_t(p)    monotone Hermite pieces through the settings
 *   N(x; p) = Σ_i w_i N_i(x_i + S_i v),  v = (x - x_t(p)) / S(p)     i the settings on either side
 *   w = 3 s² - 2 s³,  s the way from one to the next
 *
 * Both neighbours stand at net 0.04 where v = 0 and at 90 % of their maximum where v = 1, and so does
 * what lies between them: the interpolated curve has exactly the interpolated scale and speed. It
 * never falls, since neither neighbour does.
 *
 * Sources: [FB1984], [FC1980] the monotone pieces; the blend of shapes is the project's own.
 * Deviations: none.
 */
import {
  derivedBaseFog,
  derivedDensity,
  estimateOn,
  plus,
  scaled,
  type CharacteristicCurve,
  type CurveMeasure,
  type Derived,
} from '../curve/index.ts';
import { InvalidArgumentError, OutOfDomainError } from '../errors.ts';
import type { Estimate } from '../estimate.ts';
import { asDrawnCurve, monotoneSlopes } from '../fitting/index.ts';
import type { MappedSetting, PaperMap } from './paper-map.ts';
import { PAPER_SPEED_NET_DENSITY, paperPoints } from './paper-points.ts';
import { exposureForTone, paperResponse } from './paper-response.ts';
import { generatedPaper, type PrintPaper } from './print-paper.ts';
import { settingName } from './setting-position.ts';

/** The paper at one setting. */
export interface PaperSetting {
  /** Its name where it is one of the map's, else the position as it is written. */
  readonly setting: string;
  readonly position: number;
  readonly exposureScale: Estimate;
  /** Log exposure of net 0.04, in the unit of the strips; null for a published map. */
  readonly threshold: Estimate | null;
  /** Log exposure of net 0.60; null for a published map, or where it is not reached. */
  readonly speedPoint: Estimate | null;
  /** The paper to print on. */
  readonly paper: PrintPaper;
}

/**
 * The paper to print on at a setting, without its errors: quick enough for a search.
 *
 * @param map - the paper
 * @param position - number of the setting, within those of the map
 * @throws OutOfDomainError if the position lies outside the map
 */
export function paperForSetting(map: PaperMap, position: number): PrintPaper {
  const { parts } = placeOf(map, position);
  const scale = Math.exp(interpolation(map.settings, logScalesOf(map.settings), position).value);
  if (map.kind === 'published') return generatedPaper(scale);
  return {
    kind: 'setting',
    exposureScale: scale,
    whiteDensity: parts.reduce(
      (sum, { entry, weight }) => sum + weight * (entry.whiteDensity ?? 0),
      0,
    ),
    thresholdLogExposure: interpolation(map.settings, thresholdsOf(map.settings), position).value,
    parts: parts.flatMap(({ entry, weight }) =>
      entry.curve === null || entry.threshold === null || weight === 0
        ? []
        : [
            {
              curve: entry.curve,
              thresholdLogExposure: entry.threshold.value,
              exposureScale: entry.exposureScale.value,
              weight,
            },
          ],
    ),
  };
}

/**
 * The paper at a setting, with its errors.
 *
 * @param map - the paper
 * @param position - number of the setting, within those of the map
 * @throws OutOfDomainError if the position lies outside the map
 */
export function paperAtSetting(map: PaperMap, position: number): PaperSetting {
  const paper = paperForSetting(map, position);
  const exposureScale = interpolatedScale(map.settings, position);
  const known = map.settings.find((entry) => entry.position === position);
  const common = { setting: known?.setting ?? settingName(position), position, exposureScale };
  if (map.kind === 'published') return { ...common, threshold: null, speedPoint: null, paper };
  const threshold = interpolatedThreshold(map.settings, position);
  const above = exposureForTone(paperResponse(paper), PAPER_SPEED_NET_DENSITY);
  const speed = above === null ? null : threshold.value + above;
  const speedPoint =
    speed === null
      ? null
      : { value: speed, standardError: toneDifferenceError(map, position, speed) };
  return { ...common, threshold, speedPoint, paper };
}

/** Print density at a setting and its error. */
export interface SettingTone {
  /** Reflection density, paper white included. */
  readonly density: Estimate;
  readonly gradient: number;
}

/**
 * Print density at any setting and exposure, with the errors of all strips that it hangs on.
 *
 * @param map - a map from strips
 * @param position - number of the setting, within those of the map
 * @param logExposure - in the unit of the strips
 * @throws InvalidArgumentError if the map is a published one, which knows no exposures
 * @throws OutOfDomainError if the position lies outside the map
 */
export function toneAtSetting(map: PaperMap, position: number, logExposure: number): SettingTone {
  const { value, gradient, byStrip } = strippedTone(map, position, logExposure, false);
  return { density: { value, standardError: errorOver(map, byStrip) }, gradient };
}

/**
 * Standard error of the print density at one exposure where the print is timed by another tone: the
 * exposure is such that the tone at `heldLogExposure` prints as it was found to, by a test strip.
 *
 *   dD = dD(x) - G(x) / G(x_held) dD(x_held)
 *
 * @param map - a map from strips
 * @param position - number of the setting
 * @param logExposure - of the tone, in the unit of the strips
 * @param heldLogExposure - of the tone that is held
 * @returns reflection density; null without an error model, or where the paper is level at the held tone
 * @throws as `toneAtSetting`
 */
export function heldToneError(
  map: PaperMap,
  position: number,
  logExposure: number,
  heldLogExposure: number,
): number | null {
  const tone = strippedTone(map, position, logExposure, false);
  const held = strippedTone(map, position, heldLogExposure, false);
  if (!(held.gradient > 0)) return null;
  return errorOver(map, (c, k) => {
    const [there, anchor] = [tone.byStrip(c, k), held.byStrip(c, k)];
    return there && anchor ? plus(there, anchor, -tone.gradient / held.gradient) : there;
  });
}

/**
 * Standard error of the log exposure that prints the tone standing at `logExposure`, or of the
 * distance between two such, in which the errors that they share fall out.
 *
 * @param map - a map from strips
 * @param position - number of the setting
 * @param logExposure - in the unit of the strips
 * @param other - the second one; left out, the first alone
 * @returns log10 exposure; null without an error model, or where the paper is level
 * @throws as `toneAtSetting`
 */
export function toneDifferenceError(
  map: PaperMap,
  position: number,
  logExposure: number,
  other?: number,
): number | null {
  const tones = [logExposure, ...(other === undefined ? [] : [other])].map((x) =>
    strippedTone(map, position, x, true),
  );
  if (!tones.every(({ gradient }) => gradient > 0)) return null;
  // A tone that stands higher is reached earlier: dx = -dN / gradient.
  const factors = tones.map(({ gradient }, i) => (i === 0 ? 1 : -1) / gradient);
  const [first, second] = tones;
  return errorOver(map, (c, k) => {
    const a = first?.byStrip(c, k);
    if (a === null || a === undefined) return a;
    const one = scaled(a, factors[0] ?? 0);
    if (second === undefined) return one;
    const b = second.byStrip(c, k);
    return b === null || b === undefined ? b : plus(one, b, factors[1]);
  });
}

/**
 * What a tone owes to strip k, put to that strip's curve or a rival of it. Undefined where the tone
 * does not hang on the strip, null where the curve does not reach its points.
 */
type ByStrip = (curve: CharacteristicCurve, k: number) => Derived | null | undefined;

/** By the delta method, strip by strip; strips are independent. */
function errorOver(map: PaperMap, byStrip: ByStrip): number | null {
  let variance = 0;
  for (const [k, { curve }] of map.settings.entries()) {
    if (curve === null || byStrip(curve, k) === undefined) continue;
    const measure: CurveMeasure = (c) => byStrip(c, k) ?? null;
    const error = estimateOn(curve, measure)?.standardError ?? null;
    if (error === null) return null;
    variance += error * error;
  }
  return Math.sqrt(variance);
}

/** The tone with its parts by strip; `net` leaves paper white out. */
function strippedTone(
  map: PaperMap,
  position: number,
  logExposure: number,
  net: boolean,
): { readonly value: number; readonly gradient: number; readonly byStrip: ByStrip } {
  if (!Number.isFinite(logExposure)) {
    throw new InvalidArgumentError('toneAtSetting', 'logExposure', logExposure, 'finite');
  }
  const { parts } = placeOf(map, position);
  if (map.kind === 'published') {
    throw new InvalidArgumentError('toneAtSetting', 'map', map.kind, 'a map from strips');
  }
  const scales = map.settings.map(({ exposureScale }) => exposureScale.value);
  const thresholds = thresholdsOf(map.settings);
  const logScale = interpolation(map.settings, logScalesOf(map.settings), position);
  const threshold = interpolation(map.settings, thresholds, position);
  const scale = Math.exp(logScale.value);
  const v = (logExposure - threshold.value) / scale;
  let value = 0;
  let slope = 0; // by v
  for (const { index, weight, entry } of parts) {
    if (entry.curve === null) continue;
    const own = scales[index] ?? 1;
    const paper = { kind: 'strip', exposureScale: own, curve: entry.curve } as const;
    const tone = paperResponse(paper).tone(own * v);
    value += weight * (tone.netDensity + (net ? 0 : (entry.whiteDensity ?? 0)));
    slope += weight * own * tone.gradient;
  }
  const byStrip: ByStrip = (c, k) => {
    const own = parts.find(({ index }) => index === k)?.weight ?? 0;
    const byThreshold = threshold.weights[k] ?? 0;
    const byScale = logScale.weights[k] ?? 0;
    if (own === 0 && byThreshold === 0 && byScale === 0) return undefined;
    const strip = map.settings[k]?.curve;
    if (strip === null || strip === undefined) return undefined;
    const points = paperPoints(strip);
    const t = points.thresholdX(c);
    const s = points.exposureScale(c);
    if (t === null || s === null) return null;
    // v moves with the threshold and the scale that this strip contributes.
    const v0 = plus(scaled(t, -byThreshold / scale), s, -(v * byScale) / (scales[k] ?? 1));
    const moved = scaled(v0, slope);
    if (own === 0) return moved;
    const there = derivedDensity(c, plus(t, s, v));
    return plus(moved, net ? plus(there, derivedBaseFog(c), -1) : there, own);
  };
  return { value, gradient: slope / scale, byStrip };
}

interface Place {
  readonly parts: readonly {
    readonly entry: MappedSetting;
    readonly index: number;
    readonly weight: number;
  }[];
}

/** The settings on either side with the shares of their shapes. */
function placeOf({ settings }: PaperMap, position: number): Place {
  const [first, last] = [settings[0], settings.at(-1)];
  if (first === undefined || last === undefined) {
    throw new InvalidArgumentError('paperAtSetting', 'map.settings', settings, 'one or more');
  }
  if (!(position >= first.position && position <= last.position)) {
    throw new OutOfDomainError('paperAtSetting', 'position', position, [
      first.position,
      last.position,
    ]);
  }
  const after = settings.findIndex((entry) => entry.position >= position);
  const right = settings[after] ?? last;
  const left = settings[after - 1];
  if (left === undefined || right.position === position) {
    return { parts: [{ entry: right, index: after, weight: 1 }] };
  }
  const s = (position - left.position) / (right.position - left.position);
  const weight = s * s * (3 - 2 * s);
  return {
    parts: [
      { entry: left, index: after - 1, weight: 1 - weight },
      { entry: right, index: after, weight },
    ],
  };
}

/** A value between the settings with its derivative by the value at each, and by the position. */
export function interpolation(
  settings: readonly MappedSetting[],
  values: readonly number[],
  position: number,
): { readonly value: number; readonly weights: readonly number[]; readonly slope: number } {
  if (settings.length < 2) return { value: values[0] ?? 0, weights: [1], slope: 0 };
  const positions = settings.map((entry) => entry.position);
  const curve = asDrawnCurve(positions);
  const slopes = monotoneSlopes(positions, values);
  // The first parameter of a drawn curve is base + fog, which plays no part here.
  const parameters = [0, ...values, ...slopes.map(({ slope }) => slope)];
  const out = new Float64Array(parameters.length);
  const value = curve.derivatives(position, parameters, out);
  const count = values.length;
  const weights = Array.from(out.subarray(1, count + 1));
  // A value also acts through the slopes at its own knot and at both beside it.
  for (const [k, { by }] of slopes.entries()) {
    const share = out[count + 1 + k] as number;
    for (const [beside, derivative] of by.entries()) {
      const j = k + beside - 1;
      if (j in weights) weights[j] = (weights[j] as number) + share * derivative;
    }
  }
  return { value, weights, slope: curve.gradient(position, parameters) };
}

const logScalesOf = (settings: readonly MappedSetting[]): number[] =>
  settings.map(({ exposureScale }) => Math.log(exposureScale.value));
const thresholdsOf = (settings: readonly MappedSetting[]): number[] =>
  settings.map(({ threshold }) => threshold?.value ?? 0);

function combined(weights: readonly number[], errors: readonly (number | null)[]): number | null {
  let variance = 0;
  for (const [i, weight] of weights.entries()) {
    if (weight === 0) continue;
    const error = errors[i] ?? null;
    if (error === null) return null;
    variance += (weight * error) ** 2;
  }
  return Math.sqrt(variance);
}

/** Exposure scale at a position: interpolated in its logarithm. */
export function interpolatedScale(settings: readonly MappedSetting[], position: number): Estimate {
  const scales = settings.map(({ exposureScale }) => exposureScale);
  const { value, weights } = interpolation(settings, logScalesOf(settings), position);
  const scale = Math.exp(value);
  const error = combined(
    weights,
    scales.map(({ value: own, standardError }) =>
      standardError === null ? null : standardError / own,
    ),
  );
  return { value: scale, standardError: error === null ? null : scale * error };
}

function interpolatedThreshold(settings: readonly MappedSetting[], position: number): Estimate {
  const { value, weights } = interpolation(settings, thresholdsOf(settings), position);
  const errors = settings.map(({ threshold }) => threshold?.standardError ?? null);
  return { value, standardError: combined(weights, errors) };
}
