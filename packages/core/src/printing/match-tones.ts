/**
 * The setting and the exposure that print a shadow and a highlight of the negative as wanted.
 *
 *   span(p) = x(D_s; p) - x(D_h; p)          log exposure between the two print densities
 *   span(p) = n_h - n_s                      solved for the setting p
 *   L = x(D_h; p) + n_h                      exposure without a negative
 *   var p = (var (n_h - n_s) + var span) / (d span / d p)²
 *   var (n_h - n_s) = var n_h + var n_s + (c_h - c_s)²,  c what both move by together
 *
 * n densities of the negative as the paper sees them, D print densities, x the paper's inverse.
 *
 * Sources: [ISO6846] introduction, that range and scale should be equal, carried from the ends of the
 * scale to any two print densities. Deviations: none.
 */
import { InvalidArgumentError } from '../errors.ts';
import { combinedError, type Estimate } from '../estimate.ts';
import {
  exposureForTone,
  paperAtSetting,
  paperForSetting,
  paperResponse,
  toneDifferenceError,
  type PaperMap,
  type PaperResponse,
} from '../paper/index.ts';
import { bounded, type Bounded } from './interval-of.ts';
import { USUAL_PAPER_WHITE } from './print-negative.ts';

/** A tone of the negative and what it should print as. */
export interface WantedTone {
  /** Gross density of the negative as the paper sees it, Callier factor and stain included. */
  readonly negativeDensity: Estimate;
  /**
   * By how much this density moves with one standard error of what both tones share, the Callier
   * factor: its error times the silver's density. Not part of `negativeDensity.standardError`; null or
   * left out for none.
   */
  readonly sharedError?: number | null;
  /** Reflection density wanted, paper white included. */
  readonly printDensity: number;
}

export interface WantedTones {
  readonly shadow: WantedTone;
  readonly highlight: WantedTone;
}

/** A setting with what it makes of the two tones, the highlight held. */
export interface ToneSetting {
  readonly setting: string;
  readonly position: number;
  readonly exposureScale: Estimate;
  readonly highlightPrintDensity: number;
  readonly shadowPrintDensity: number;
  /** Log exposure without a negative, in the unit of the strips; null from a published table. */
  readonly logExposure: Estimate | null;
}

export type ToneMatch =
  | {
      readonly status: 'ok';
      readonly printingRange: Estimate;
      /** Exposure scale of the paper at the setting. */
      readonly exposureScale: Estimate;
      /** Continuous setting with its interval of 95 %. */
      readonly position: Bounded;
      readonly exact: ToneSetting;
      /** The nearest whole setting of the map. */
      readonly nearest: ToneSetting;
    }
  | {
      readonly status: 'not-reachable';
      readonly reason: 'softer-than-softest' | 'harder-than-hardest';
      readonly printingRange: Estimate;
      /** The setting that comes closest. */
      readonly nearest: ToneSetting;
    }
  | ToneRefusal;

/** Why two tones cannot be asked for, with what is possible. */
export type ToneRefusal =
  | {
      readonly status: 'refused';
      readonly reason: 'highlight-thinner-than-shadow' | 'highlight-darker-than-shadow';
      /** The tones the other way round, which can be asked for. */
      readonly nearest: WantedTones;
    }
  | {
      readonly status: 'refused';
      readonly reason: 'highlight-outside-paper' | 'shadow-outside-paper';
      /** Lightest and darkest print density that the paper can hold apart. */
      readonly nearest: readonly [number, number];
    };

/** Density kept from both ends of the paper: less is no tone that a print can be set by. */
const FROM_THE_ENDS = 0.005;

/**
 * Matches a paper to two tones.
 *
 * @param map - the paper, own strips or a published table
 * @param wanted - shadow and highlight
 * @param options - `paperWhiteDensity` where the map has none (0.06 unless given); `position` of a
 *   setting to be used whatever suits best: it is then the nearest
 * @returns the setting and the exposure, or why it cannot be had and what is nearest
 * @throws InvalidArgumentError if a density is not finite
 */
export function matchTones(
  map: PaperMap,
  wanted: WantedTones,
  options: { readonly paperWhiteDensity?: number; readonly position?: number } = {},
): ToneMatch {
  const { shadow, highlight } = wanted;
  const refusal = refusedTones(wanted);
  if (refusal !== null) return refusal;
  const own = options.paperWhiteDensity ?? USUAL_PAPER_WHITE;
  const printingRange: Estimate = {
    value: highlight.negativeDensity.value - shadow.negativeDensity.value,
    standardError: combinedError(
      highlight.negativeDensity.standardError,
      shadow.negativeDensity.standardError,
      sharedOfRange(wanted),
    ),
  };
  const positions = map.settings.map(({ position }) => position);
  const ends = positions.map((position) => readyAt(map, position, own));
  for (const [which, { printDensity }] of [
    ['highlight', highlight],
    ['shadow', shadow],
  ] as const) {
    // The paper's reach is what every setting has in common.
    const low = Math.max(...ends.map(({ white }) => white)) + FROM_THE_ENDS;
    const high =
      Math.min(...ends.map(({ white, response }) => white + response.netMaximum)) - FROM_THE_ENDS;
    if (!(printDensity >= low && printDensity <= high)) {
      return { status: 'refused', reason: `${which}-outside-paper`, nearest: [low, high] };
    }
  }

  const span = (position: number): number => {
    const ready = readyAt(map, position, own);
    return ready.x(shadow.printDensity) - ready.x(highlight.printDensity);
  };
  const settingAt = (position: number): ToneSetting => toneSettingAt(map, position, own, wanted);
  const spans = positions.map((position) => ({ position, span: span(position) }));
  const bySoftness = [...spans].sort((a, b) => b.span - a.span);
  const [softest, hardest] = [bySoftness[0], bySoftness.at(-1)];
  const nearest =
    options.position === undefined
      ? spans.reduce((a, b) =>
          Math.abs(b.span - printingRange.value) < Math.abs(a.span - printingRange.value) ? b : a,
        )
      : { position: options.position };
  if (softest === undefined || hardest === undefined) {
    throw new InvalidArgumentError('matchTones', 'map.settings', map.settings, 'one or more');
  }
  if (printingRange.value > softest.span + 1e-9 || printingRange.value < hardest.span - 1e-9) {
    return {
      status: 'not-reachable',
      reason: printingRange.value > softest.span ? 'softer-than-softest' : 'harder-than-hardest',
      printingRange,
      nearest: settingAt(nearest.position),
    };
  }
  let [soft, hard] = [softest.position, hardest.position];
  for (let i = 0; i < 50; i++) {
    const middle = 0.5 * (soft + hard);
    if (span(middle) > printingRange.value) soft = middle;
    else hard = middle;
  }
  const position = 0.5 * (soft + hard);
  const slope = slopeOf(span, position, positions);
  const paperError = spanError(map, position, own, wanted);
  const error = combinedError(printingRange.standardError, paperError);
  return {
    status: 'ok',
    printingRange,
    exposureScale: paperAtSetting(map, position).exposureScale,
    position: bounded({
      value: position,
      standardError: error === null || !(slope > 0) ? null : error / slope,
    }),
    exact: settingAt(position),
    nearest: settingAt(nearest.position),
  };
}

/** What a shared error does to the range: the highlight moves more than the shadow. */
function sharedOfRange({ shadow, highlight }: WantedTones): number | null {
  const [s, h] = [shadow.sharedError ?? null, highlight.sharedError ?? null];
  return s === null && h === null ? null : (h ?? 0) - (s ?? 0);
}

/** The checks that hold for every way of printing two tones. */
export function refusedTones(wanted: WantedTones): ToneRefusal | null {
  const { shadow, highlight } = wanted;
  for (const value of [
    shadow.negativeDensity.value,
    shadow.printDensity,
    highlight.negativeDensity.value,
    highlight.printDensity,
  ]) {
    if (!Number.isFinite(value)) {
      throw new InvalidArgumentError('matchTones', 'density', value, 'a finite number');
    }
  }
  const exchanged = (densities: boolean): WantedTones => ({
    highlight: densities
      ? { ...shadow, printDensity: highlight.printDensity }
      : { ...highlight, printDensity: shadow.printDensity },
    shadow: densities
      ? { ...highlight, printDensity: shadow.printDensity }
      : { ...shadow, printDensity: highlight.printDensity },
  });
  if (!(highlight.negativeDensity.value > shadow.negativeDensity.value)) {
    return {
      status: 'refused',
      reason: 'highlight-thinner-than-shadow',
      nearest: exchanged(true),
    };
  }
  if (!(highlight.printDensity < shadow.printDensity)) {
    return { status: 'refused', reason: 'highlight-darker-than-shadow', nearest: exchanged(false) };
  }
  return null;
}

interface Ready {
  readonly response: PaperResponse;
  readonly white: number;
  /** Log exposure above the threshold for a print density; clipped to where the paper ends. */
  readonly x: (printDensity: number) => number;
}

function readyAt(map: PaperMap, position: number, ownWhite: number): Ready {
  const response = paperResponse(paperForSetting(map, position));
  const white = response.whiteDensity ?? ownWhite;
  const x = (printDensity: number): number =>
    exposureForTone(response, printDensity - white) ?? response.exposureScale;
  return { response, white, x };
}

function toneSettingAt(
  map: PaperMap,
  position: number,
  ownWhite: number,
  { shadow, highlight }: WantedTones,
): ToneSetting {
  const at = paperAtSetting(map, position);
  const { response, white, x } = readyAt(map, position, ownWhite);
  const above = x(highlight.printDensity);
  const range = highlight.negativeDensity.value - shadow.negativeDensity.value;
  const { netDensity } = response.tone(above + range);
  const light = at.threshold && {
    value: at.threshold.value + above + highlight.negativeDensity.value,
    standardError: combinedError(
      highlight.negativeDensity.standardError,
      highlight.sharedError ?? null,
      toneDifferenceError(map, position, at.threshold.value + above),
    ),
  };
  return {
    setting: at.setting,
    position,
    exposureScale: at.exposureScale,
    highlightPrintDensity: highlight.printDensity,
    shadowPrintDensity: white + netDensity,
    logExposure: light,
  };
}

/** Error of the span by the paper: of its strips, or of the band of a published table. */
function spanError(
  map: PaperMap,
  position: number,
  ownWhite: number,
  { shadow, highlight }: WantedTones,
): number | null {
  const { exposureScale, threshold } = paperAtSetting(map, position);
  const { x } = readyAt(map, position, ownWhite);
  const [low, high] = [x(highlight.printDensity), x(shadow.printDensity)];
  if (threshold === null) {
    const { value, standardError } = exposureScale;
    return standardError === null ? null : (standardError / value) * (high - low);
  }
  return toneDifferenceError(map, position, threshold.value + low, threshold.value + high);
}

/** |d span / d position| by a chord within the map. */
function slopeOf(
  span: (position: number) => number,
  position: number,
  positions: readonly number[],
): number {
  const h = 0.02;
  const low = Math.max(Math.min(...positions), position - h);
  const high = Math.min(Math.max(...positions), position + h);
  return high > low ? Math.abs((span(high) - span(low)) / (high - low)) : 0;
}
