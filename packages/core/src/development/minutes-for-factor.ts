/**
 * Development time at which a film's contrast is a multiple of that at another time.
 *
 *   c(t2) = k c(t1),   dt2/dp = (k ∂c/∂p(t1) - ∂c/∂p(t2)) / ∂c/∂t(t2)
 *
 * Both contrasts come from one law, so that most of its error cancels where the times are near.
 *
 * Sources: [Seber2003] section 5.1, the delta method; `contrast-model.ts` for the law. Deviations:
 * none.
 */
import { InvalidArgumentError } from '../errors.ts';
import type { Estimate } from '../estimate.ts';
import { unconditionalError } from '../fitting/index.ts';
import { warning, type Warning } from '../warning.ts';
import {
  contrastPoint,
  minutesOfForm,
  type ContrastForm,
  type ContrastModel,
} from './contrast-model.ts';

export type MinutesForFactor =
  | { readonly status: 'ok'; readonly minutes: Estimate; readonly warnings: readonly Warning[] }
  | {
      readonly status: 'not-reachable';
      /**
       * The most that the film tends to, as a multiple of the contrast at that time; null for a law
       * without a limit.
       */
      readonly greatestFactor: number | null;
      readonly warnings: readonly Warning[];
    };

/**
 * Minutes for a multiple of a contrast.
 *
 * @param model - contrast against time
 * @param minutes - t1, the time that was given, > 0
 * @param factor - k, > 0
 * @param celsius - temperature of both, the model's reference unless given
 * @returns t2 with an error that includes the choice of the family, or the most that is reached;
 *   with a warning beyond the times tried
 * @throws InvalidArgumentError if an argument is out of range
 */
export function minutesForFactor(
  model: ContrastModel,
  minutes: number,
  factor: number,
  celsius = model.referenceCelsius,
): MinutesForFactor {
  if (!(factor > 0 && factor < Infinity)) {
    throw new InvalidArgumentError('minutesForFactor', 'factor', factor, 'above zero');
  }
  const { referenceCelsius } = model;
  const solved = (form: Pick<ContrastForm, 'family' | 'parameters'>) => {
    const from = contrastPoint(form, minutes, celsius, referenceCelsius);
    const value =
      from.value > 0 ? minutesOfForm(form, factor * from.value, celsius, referenceCelsius) : null;
    if (value === null || !Number.isFinite(value)) return null;
    const to = contrastPoint(form, value, celsius, referenceCelsius);
    return {
      value,
      derivatives: to.byParameter.map(
        (derivative, i) => (factor * (from.byParameter[i] ?? 0) - derivative) / to.byMinutes,
      ),
    };
  };
  const own = solved(model);
  const named = `×${factor.toFixed(2)} the contrast`;
  if (own === null) {
    const here = contrastPoint(model, minutes, celsius, referenceCelsius).value;
    const limit = model.contrastInfinity?.value ?? null;
    const greatestFactor = limit === null ? null : here > 0 ? limit / here : 0;
    return {
      status: 'not-reachable',
      greatestFactor,
      warnings: [
        warning('contrast-not-reachable', {
          development: named,
          contrast: factor * here,
          ...(limit !== null && { limit }),
        }),
      ],
    };
  }
  const standardError = unconditionalError(
    { ...own, covariance: model.covariance, weight: model.weight },
    model.rivals.map((rival) => {
      const other = solved(rival);
      return other && { ...other, covariance: rival.covariance, weight: rival.weight };
    }),
  );
  const q = model.temperatureCoefficient.value;
  const atReference = own.value * q ** ((celsius - referenceCelsius) / 10);
  const [first, last] = model.testedMinutes;
  const outside = atReference < 0.98 * first || atReference > 1.02 * last;
  return {
    status: 'ok',
    minutes: { value: own.value, standardError },
    warnings: outside
      ? [
          warning('time-extrapolated', {
            development: named,
            minutes: own.value,
            first,
            last,
          }),
        ]
      : [],
  };
}
