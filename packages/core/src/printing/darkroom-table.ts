/**
 * The table for the darkroom wall: every exposure of a print in its order, with what the timer shows.
 *
 *   burn of s stops     t (2^s - 1) added
 *   dodge of s stops    t (1 - 2^-s) held back within the exposure
 *   cumulative          light since the sheet was laid down, held-back light not taken off
 *
 * Sources: what a stop is (derived). Deviations: reciprocity failure of paper is left out.
 */
import { InvalidArgumentError } from '../errors.ts';
import { LOG_STOP } from '../readings/index.ts';

/** An exposure of the whole sheet. */
export interface WholeExposure {
  /** Light or setting, such as `soft`, `hard` or `2½`. */
  readonly light: string;
  readonly seconds: number;
}

/** An area that gets more or less of one of the exposures. */
export interface AreaChange {
  readonly area: string;
  /** Light of the exposure that it counts from. */
  readonly light: string;
  /** More (+) burns in, less (-) dodges. */
  readonly stops: number;
}

export interface DarkroomStep {
  readonly kind: 'whole' | 'dodge' | 'burn';
  readonly light: string;
  /** Empty for the whole sheet. */
  readonly area: string;
  readonly stops: number | null;
  /** Seconds as reckoned. */
  readonly seconds: number;
  /** Seconds on the timer. */
  readonly timerSeconds: number;
  /** Light of this kind that the area has had in all, timer's seconds. */
  readonly totalSeconds: number;
  /** Timer's seconds of all exposures so far; a dodge runs within its exposure and adds none. */
  readonly cumulativeSeconds: number;
  /** What rounding to the timer does, stops of that light on the area. */
  readonly roundingStops: number;
}

/**
 * Steps of a print.
 *
 * @param exposures - of the whole sheet, in order
 * @param areas - burnt in or dodged
 * @param timerStep - what the timer can be set to, seconds; 0.1 unless given
 * @returns dodges after the exposure they belong to, burns at the end, lights kept together
 * @throws InvalidArgumentError if a time is not above zero, an area names a light that is not there, or
 *   the timer cannot be set so fine
 */
export function darkroomTable(
  exposures: readonly WholeExposure[],
  areas: readonly AreaChange[] = [],
  timerStep = 0.1,
): DarkroomStep[] {
  if (!(timerStep > 0 && timerStep <= 10)) {
    throw new InvalidArgumentError('darkroomTable', 'timerStep', timerStep, 'above 0, up to 10');
  }
  for (const { seconds } of exposures) {
    if (!(seconds > 0 && seconds < Infinity)) {
      throw new InvalidArgumentError('darkroomTable', 'seconds', seconds, 'above zero');
    }
  }
  const lights = new Map(exposures.map(({ light, seconds }) => [light, seconds]));
  for (const { light, stops } of areas) {
    if (!lights.has(light)) {
      throw new InvalidArgumentError(
        'darkroomTable',
        'light',
        light,
        [...lights.keys()].join(', '),
      );
    }
    if (!(stops >= -10 && stops <= 10)) {
      throw new InvalidArgumentError('darkroomTable', 'stops', stops, 'from -10 to 10');
    }
  }
  const onTimer = (seconds: number): number =>
    Math.max(timerStep, Math.round(seconds / timerStep) * timerStep);
  const steps: DarkroomStep[] = [];
  let cumulativeSeconds = 0;
  for (const { light, seconds } of exposures) {
    const timerSeconds = onTimer(seconds);
    cumulativeSeconds += timerSeconds;
    steps.push({
      kind: 'whole',
      light,
      area: '',
      stops: null,
      seconds,
      timerSeconds,
      totalSeconds: timerSeconds,
      cumulativeSeconds,
      roundingStops: Math.log10(timerSeconds / seconds) / LOG_STOP,
    });
    for (const { area, stops } of areas.filter((one) => one.light === light && one.stops < 0)) {
      const held = seconds * (1 - 2 ** stops);
      const timer = Math.min(onTimer(held), timerSeconds);
      const total = timerSeconds - timer;
      steps.push({
        kind: 'dodge',
        light,
        area,
        stops,
        seconds: held,
        timerSeconds: timer,
        totalSeconds: total,
        cumulativeSeconds,
        roundingStops: total > 0 ? Math.log10(total / (seconds - held)) / LOG_STOP : -10,
      });
    }
  }
  for (const { light, seconds } of exposures) {
    for (const { area, stops } of areas.filter((one) => one.light === light && one.stops > 0)) {
      const added = seconds * (2 ** stops - 1);
      const timerSeconds = onTimer(added);
      cumulativeSeconds += timerSeconds;
      const total = onTimer(seconds) + timerSeconds;
      steps.push({
        kind: 'burn',
        light,
        area,
        stops,
        seconds: added,
        timerSeconds,
        totalSeconds: total,
        cumulativeSeconds,
        roundingStops: Math.log10(total / (seconds + added)) / LOG_STOP,
      });
    }
  }
  return steps;
}
