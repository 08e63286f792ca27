/**
 * The setting that gives a paper an exposure scale: the inverse of its map.
 *
 *   S(p) = wanted;   var p = (var ln S(p) + var ln wanted) / (d ln S / d p)²
 *
 * Sources: see `paper-map.ts`. Deviations: none.
 */
import { InvalidArgumentError } from '../errors.ts';
import type { Estimate } from '../estimate.ts';
import { interpolatedScale, interpolation } from './paper-at-setting.ts';
import type { MappedSetting, PaperMap } from './paper-map.ts';

/** A whole setting of the map and how far it misses the scale. */
export interface NearestSetting {
  readonly setting: string;
  readonly position: number;
  readonly exposureScale: Estimate;
  /** Its scale less the one wanted, log10: positive where it prints softer. */
  readonly difference: number;
}

export type SettingForScale =
  | {
      readonly status: 'ok';
      /** In fractions of a setting; no error where the map is flat or has none. */
      readonly position: Estimate;
      readonly nearest: NearestSetting;
    }
  | {
      readonly status: 'not-reachable';
      readonly reason: 'softer-than-softest' | 'harder-than-hardest';
      /** What comes closest. */
      readonly nearest: NearestSetting;
    };

/**
 * Setting for an exposure scale.
 *
 * @param map - the paper
 * @param exposureScale - wanted, log10, > 0
 * @returns the position between settings and the nearest whole one, or why there is none
 * @throws InvalidArgumentError if the scale is not above zero
 */
export function settingForScale(map: PaperMap, exposureScale: Estimate): SettingForScale {
  const wanted = exposureScale.value;
  if (!(wanted > 0 && wanted < Infinity)) {
    throw new InvalidArgumentError('settingForScale', 'exposureScale', wanted, 'above zero');
  }
  const { settings } = map;
  const nearest = nearestSetting(settings, wanted);
  const bySoftness = [...settings].sort((a, b) => b.exposureScale.value - a.exposureScale.value);
  const [softest, hardest] = [bySoftness[0], bySoftness.at(-1)];
  // Rounded to a billionth, so that the scale of an end itself is within.
  const beyond = (difference: number): boolean => difference > 1e-9;
  if (softest && beyond(wanted - softest.exposureScale.value)) {
    return { status: 'not-reachable', reason: 'softer-than-softest', nearest };
  }
  if (hardest && beyond(hardest.exposureScale.value - wanted)) {
    return { status: 'not-reachable', reason: 'harder-than-hardest', nearest };
  }
  const logScale = (position: number) =>
    interpolation(
      settings,
      settings.map((entry) => Math.log(entry.exposureScale.value)),
      position,
    );
  let soft = softest?.position ?? 0;
  let hard = hardest?.position ?? 0;
  for (let i = 0; i < 60; i++) {
    const middle = 0.5 * (soft + hard);
    if (logScale(middle).value > Math.log(wanted)) soft = middle;
    else hard = middle;
  }
  const position = 0.5 * (soft + hard);
  const slope = Math.abs(logScale(position).slope) || slopeBetween(settings, position);
  const own = interpolatedScale(settings, position);
  const known = [own, exposureScale].flatMap(({ value, standardError }) =>
    standardError === null ? [] : [standardError / value],
  );
  return {
    status: 'ok',
    position: {
      value: position,
      standardError: known.length === 0 || !(slope > 0) ? null : Math.hypot(...known) / slope,
    },
    nearest,
  };
}

/** Chord of the neighbours: the drawn curve is level beyond its ends. */
function slopeBetween(settings: readonly MappedSetting[], position: number): number {
  const after = settings.findIndex((entry) => entry.position >= position);
  const right = settings[Math.max(1, after)];
  const left = settings[Math.max(1, after) - 1];
  if (left === undefined || right === undefined) return 0;
  const rise = Math.log(left.exposureScale.value / right.exposureScale.value);
  return Math.abs(rise / (right.position - left.position));
}

function nearestSetting(settings: readonly MappedSetting[], wanted: number): NearestSetting {
  const distance = ({ exposureScale }: MappedSetting): number =>
    Math.abs(Math.log(exposureScale.value / wanted));
  const best = settings.reduce((a, b) => (distance(b) < distance(a) ? b : a));
  const { setting, position, exposureScale } = best;
  return { setting, position, exposureScale, difference: exposureScale.value - wanted };
}
