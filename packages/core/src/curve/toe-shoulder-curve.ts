/**
 * The default curve: `toe-shoulder` with its shoulder where the readings show one and without it
 * where they do not, each form the other's companion as far as the readings leave the choice open.
 *
 * Sources: see `fitting/fit-toe-shoulder.ts`. Deviations: none.
 */
import { fitToeShoulder, toeOnly, type CurveMember } from '../fitting/index.ts';
import type { CharacteristicCurve } from './characteristic-curve.ts';
import { curveFromFit } from './curve-from-fit.ts';
import type { SortedReadings } from './sort-readings.ts';

/**
 * Fits the default curve.
 *
 * @returns the curve, or null where the readings determine neither form
 */
export function toeShoulderCurve(readings: SortedReadings): CharacteristicCurve | null {
  if (readings.x.length < toeOnly.parameterNames.length) return null;
  const { members } = fitToeShoulder(readings.x, readings.y);
  const [lead, ...rivals] = members;
  if (!isUsable(lead)) return null;
  const curveOf = ({ model, fit }: CurveMember): CharacteristicCurve =>
    curveFromFit('toe-shoulder', model.parameterNames, fit, readings);
  return {
    ...curveOf(lead),
    weight: lead.weight,
    companions: rivals
      .filter(isUsable)
      .map((member) => ({ curve: curveOf(member), weight: member.weight })),
  };
}

function isUsable({ fit }: CurveMember): boolean {
  return fit.report.status !== 'too-few-data' && fit.parameters.every(Number.isFinite);
}
