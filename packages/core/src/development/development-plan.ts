/**
 * Development times for N-n … N+n.
 *
 *   contrast of N+n = contrast of N · S / (S - n)      S stops of textural scale, 7 unless given
 *   contrast of N   = exposure scale / (subject log range - flare)
 *
 * Sources: published zone practice for the 7-stop scale; [JONES1920] for the gradient that a scene,
 * flare and a paper ask for. Deviations: none.
 */
import { InvalidArgumentError } from '../errors.ts';
import type { Estimate } from '../estimate.ts';
import { LOG_STOP } from '../readings/index.ts';
import { warning, type Warning } from '../warning.ts';
import { contrastPoint, minutesForContrast, type ContrastModel } from './contrast-model.ts';
import { contrastFactor } from './first-order-closed-forms.ts';
import {
  exposureIndexAt,
  speedPointAt,
  type ExposureIndex,
  type SpeedModel,
} from './speed-against-time.ts';

export interface DevelopmentPlanOptions {
  /** Contrast of normal development, in the measure of the model. */
  readonly normalContrast: number;
  /** Standard error of that contrast, where it comes from a paper that was measured; 0 unless given. */
  readonly normalContrastError?: number;
  /** Changes to plan, stops of expansion (+) or contraction (-); -2 … +2 unless given. */
  readonly changes?: readonly number[];
  /** Stops between textured shadow and highlight; 7 unless given. */
  readonly texturalStops?: number;
  /** Temperature of the development; the model's reference unless given. */
  readonly celsius?: number;
  /** Speed points of the strips, where their exposure is absolute. */
  readonly speed?: SpeedModel | null;
  /** Part of the film's limit beyond which contrast is not to be relied on; 0.8 unless given. */
  readonly usablePart?: number;
  /** Shortest time that develops evenly, minutes; 5 unless given. */
  readonly shortestMinutes?: number;
}

export interface PlannedDevelopment {
  /** `N-2` … `N`, `N+2`. */
  readonly development: string;
  readonly change: number;
  readonly contrast: number;
  /** Null where the contrast is out of reach. */
  readonly minutes: Estimate | null;
  readonly exposureIndex: ExposureIndex | null;
  /** Film speed against that of N, in stops; null without speed points or out of reach. */
  readonly speedChangeStops: number | null;
  readonly reachable: boolean;
  readonly warnings: readonly Warning[];
}

/**
 * Plans development times.
 *
 * @param model - contrast against time
 * @param options - normal contrast, changes, temperature, speed points, limits
 * @returns one row per change, in the order given
 * @throws InvalidArgumentError if an option is out of range
 */
export function developmentPlan(
  model: ContrastModel,
  options: DevelopmentPlanOptions,
): PlannedDevelopment[] {
  const {
    normalContrast,
    normalContrastError = 0,
    changes = [-2, -1, 0, 1, 2],
    texturalStops = 7,
    celsius = model.referenceCelsius,
    speed = null,
    usablePart = 0.8,
    shortestMinutes = 5,
  } = options;
  if (!(normalContrast > 0 && normalContrast < 10)) {
    throw new InvalidArgumentError(
      'developmentPlan',
      'normalContrast',
      normalContrast,
      'above zero and below 10',
    );
  }
  if (!(normalContrastError >= 0 && normalContrastError < 10)) {
    throw new InvalidArgumentError(
      'developmentPlan',
      'normalContrastError',
      normalContrastError,
      'zero or more',
    );
  }
  const normal = minutesForContrast(model, normalContrast, celsius);
  const normalPoint =
    speed !== null && normal.status === 'ok'
      ? speedPointAt(speed, normal.minutes.value, celsius).value
      : null;
  return changes.map((change): PlannedDevelopment => {
    const factor = contrastFactor(change, texturalStops);
    const contrast = normalContrast * factor;
    const development = nameOf(change);
    const answer = minutesForContrast(model, contrast, celsius);
    if (answer.status === 'not-reachable') {
      return {
        development,
        change,
        contrast,
        minutes: null,
        exposureIndex: null,
        speedChangeStops: null,
        reachable: false,
        warnings: [
          warning('contrast-not-reachable', {
            development,
            contrast,
            ...(answer.limit !== null && { limit: answer.limit }),
          }),
        ],
      };
    }
    const minutes = widened(model, answer.minutes, celsius, factor * normalContrastError);
    const point = speed === null ? null : speedPointAt(speed, minutes.value, celsius).value;
    return {
      development,
      change,
      contrast,
      minutes,
      exposureIndex: speed === null ? null : exposureIndexAt(speed, minutes.value, celsius),
      speedChangeStops:
        point === null || normalPoint === null ? null : (normalPoint - point) / LOG_STOP,
      reachable: true,
      warnings: rowWarnings(model, development, contrast, minutes.value, celsius, {
        usablePart,
        shortestMinutes,
      }),
    };
  });
}

/** Minutes whose error counts that of the contrast that is asked for: dt = dc / (dc/dt). */
function widened(
  model: ContrastModel,
  minutes: Estimate,
  celsius: number,
  contrastError: number,
): Estimate {
  if (contrastError === 0 || minutes.standardError === null) return minutes;
  const { byMinutes } = contrastPoint(model, minutes.value, celsius, model.referenceCelsius);
  const standardError = Math.hypot(minutes.standardError, contrastError / byMinutes);
  return { ...minutes, standardError: Number.isFinite(standardError) ? standardError : null };
}

function rowWarnings(
  model: ContrastModel,
  development: string,
  contrast: number,
  minutes: number,
  celsius: number,
  limits: { readonly usablePart: number; readonly shortestMinutes: number },
): Warning[] {
  const warnings: Warning[] = [];
  const limit = model.contrastInfinity?.value;
  if (limit !== undefined && contrast > limits.usablePart * limit) {
    warnings.push(warning('near-contrast-limit', { development, contrast, limit }));
  }
  if (minutes < limits.shortestMinutes) {
    warnings.push(
      warning('short-development', { development, minutes, shortest: limits.shortestMinutes }),
    );
  }
  const q = model.temperatureCoefficient.value;
  const atReference = minutes * q ** ((celsius - model.referenceCelsius) / 10);
  const [first, last] = model.testedMinutes;
  if (atReference < 0.98 * first || atReference > 1.02 * last) {
    warnings.push(warning('time-extrapolated', { development, minutes, first, last }));
  }
  return warnings;
}

function nameOf(change: number): string {
  if (change === 0) return 'N';
  return change > 0 ? `N+${change}` : `N-${-change}`;
}

/**
 * Average gradient that a subject, flare and a paper ask of the film.
 *
 * @param exposureScale - log exposure scale of the paper, as the negative's density range must be
 *   (divided by the Callier factor for a condenser enlarger)
 * @param subjectLogRange - log10 of the subject's luminance range
 * @param flare - log10 by which flare shortens it, zero or more
 * @returns exposure scale / (subject range - flare)
 * @throws InvalidArgumentError if the scale is not positive or the flare swallows the subject
 * @source [JONES1920]
 * @example
 * requiredGradient(1.05, 2.1, 0); // => 0.5
 */
export function requiredGradient(
  exposureScale: number,
  subjectLogRange: number,
  flare = 0,
): number {
  if (!(exposureScale > 0 && exposureScale < 6)) {
    throw new InvalidArgumentError('requiredGradient', 'exposureScale', exposureScale, 'in (0, 6)');
  }
  if (!(flare >= 0 && subjectLogRange - flare > 0.1 && subjectLogRange < 10)) {
    throw new InvalidArgumentError(
      'requiredGradient',
      'subjectLogRange',
      subjectLogRange,
      'above the flare',
    );
  }
  return exposureScale / (subjectLogRange - flare);
}
