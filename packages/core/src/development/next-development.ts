/**
 * The development time whose test would narrow the plan most.
 *
 *   trial      contrast c(t; p) with error s, its timing included, linearised: C -> C - C g g' C / (s² + g' C g)
 *   criterion  root mean square of the standard errors of the planned minutes after the trial
 *
 * Sources: [CV1995] the expected gain of a linearised design. Deviations: the law is linearised at
 * its present parameters, and a delay that was assumed counts as known to a minute.
 */
import { InvalidArgumentError } from '../errors.ts';
import { covarianceAfterObservation, quadraticForm } from '../fitting/index.ts';
import { ASSUMED_TIMING_DEVIATION, checkedTiming, withTiming } from './timing-deviation.ts';
import { contrastPoint, minutesOfForm, type ContrastModel } from './contrast-model.ts';

export interface NextDevelopmentOptions {
  /** Contrasts that the plan asks for. */
  readonly contrasts: readonly number[];
  /** Times to choose from, minutes; 2 to 30 in steps of a twelfth or so unless given. */
  readonly candidates?: readonly number[];
  /** Standard error with which a strip tells its contrast; 0.015 unless given. */
  readonly contrastError?: number;
  /** Deviation of ln time of a strip, which counts beside it; 0.015 unless given. */
  readonly timingDeviation?: number;
  /** Temperature of trial and plan; the model's reference unless given. */
  readonly celsius?: number;
}

/** What one more strip would buy. */
export interface DevelopmentTrial {
  readonly minutes: number;
  /** Contrast that is expected of it. */
  readonly expectedContrast: number;
  /** Root mean square standard error of the planned minutes after it. */
  readonly errorAfter: number;
}

export interface NextDevelopment {
  /** Root mean square standard error of the planned minutes now. */
  readonly errorNow: number;
  /** Trials, the most telling first. */
  readonly trials: readonly DevelopmentTrial[];
}

const GRID = Array.from({ length: 34 }, (_, i) => Math.round(20 * 2 * 1.0855 ** i) / 20);
/** Standard error in minutes of a delay that was assumed. */
const DELAY_ERROR = 1;

/**
 * Ranks development times by what a strip at each would tell about the plan.
 *
 * @param model - contrast against time
 * @param options - contrasts of the plan, candidates, error of a strip, temperature
 * @returns the errors now and after each trial; null for a model that is a guess or whose plan lies
 *   out of reach, where any other time helps
 * @throws InvalidArgumentError if an option is out of range
 * @source [CV1995]
 */
export function nextDevelopment(
  model: ContrastModel,
  options: NextDevelopmentOptions,
): NextDevelopment | null {
  const { contrasts, candidates = GRID, contrastError = 0.015 } = options;
  const { celsius = model.referenceCelsius } = options;
  const timing = checkedTiming(
    'nextDevelopment',
    options.timingDeviation ?? ASSUMED_TIMING_DEVIATION,
  );
  if (!(contrastError > 0 && contrastError < 1)) {
    throw new InvalidArgumentError('nextDevelopment', 'contrastError', contrastError, 'in (0, 1)');
  }
  if (candidates.length === 0) {
    throw new InvalidArgumentError('nextDevelopment', 'candidates', candidates, 'at least one');
  }
  const now = priorOf(model);
  if (now === null) return null;
  const at = (minutes: number) => contrastPoint(model, minutes, celsius, model.referenceCelsius);
  const wanted = contrasts.flatMap((contrast) => {
    const minutes = minutesOfForm(model, contrast, celsius, model.referenceCelsius);
    if (minutes === null || !(minutes > 0 && minutes < 1000)) return [];
    const { byMinutes, byParameter } = at(minutes);
    return [byParameter.map((derivative) => -derivative / byMinutes)];
  });
  if (wanted.length === 0) return null;
  const errorOf = (covariance: readonly number[]): number =>
    Math.sqrt(wanted.reduce((sum, g) => sum + quadraticForm(g, covariance), 0) / wanted.length);
  const trials = candidates.map((minutes): DevelopmentTrial => {
    const { value, byMinutes, byParameter } = at(minutes);
    const error = withTiming(contrastError, minutes * byMinutes, timing);
    const errorAfter = errorOf(covarianceAfterObservation(now, byParameter, error));
    return { minutes, expectedContrast: value, errorAfter };
  });
  return {
    errorNow: errorOf(now),
    trials: trials.sort((a, b) => a.errorAfter - b.errorAfter),
  };
}

/** The covariance, with a doubt about an assumed delay; null where nothing is known of the errors. */
function priorOf({ family, covariance, parameters, basis }: ContrastModel): number[] | null {
  if (covariance === null || basis === 'scaled-guess') return null;
  const prior = [...covariance];
  if (family !== 'first-order' || basis !== 'two-times') return prior;
  // What two contrasts tell holds for the delay assumed; another one moves limit and rate with it,
  // so its doubt is added as independent, which is the most that can be said without a third time.
  const size = parameters.length;
  prior[2 * size + 2] = (prior[2 * size + 2] ?? 0) + DELAY_ERROR ** 2;
  return prior;
}
