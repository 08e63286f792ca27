/**
 * The default curve, from its fits.
 *
 * Sources: see `fitting/fit-default-curve.ts`. Deviations: none.
 */
import {
  fitDefaultCurve,
  toeOnly,
  type CurveMember,
  type DefaultCurveFit,
} from '../fitting/index.ts';
import type { CharacteristicCurve } from './characteristic-curve.ts';
import { curveFromFit } from './curve-from-fit.ts';
import type { SortedReadings } from './sort-readings.ts';

/** A curve, and for the default path what the lack-of-fit test said. */
export interface DefaultCurve {
  readonly curve: CharacteristicCurve;
  readonly lackOfFit: DefaultCurveFit['lackOfFit'];
  readonly reason: DefaultCurveFit['reason'];
}

/**
 * Fits the default curve: `toe-shoulder`, or `monotone-smooth` where it misses the readings, each
 * the other's companion as far as the readings leave the choice open.
 *
 * @returns the curve, or null where the readings do not determine one
 */
export function defaultCurve(readings: SortedReadings): DefaultCurve | null {
  if (readings.x.length < toeOnly.parameterNames.length) return null;
  const result = fitDefaultCurve(readings.x, readings.y);
  const [lead, ...rivals] = result.members;
  if (!isUsable(lead)) return null;
  const curveOf = (member: CurveMember): CharacteristicCurve =>
    curveFromFit(member.family, member.model.parameterNames, member, readings, member.knots);
  return {
    curve: {
      ...curveOf(lead),
      weight: lead.weight,
      companions: rivals
        .filter(isUsable)
        .map((member) => ({ curve: curveOf(member), weight: member.weight })),
    },
    lackOfFit: result.lackOfFit,
    reason: result.reason,
  };
}

function isUsable({ parameters }: { readonly parameters: readonly number[] }): boolean {
  return parameters.every(Number.isFinite);
}
