/**
 * What is known of how the film of the negative develops: the contrast of its strips against their
 * times, and how the negative itself was developed.
 */
import {
  contrastOf,
  fitContrastModel,
  type ContrastModel,
  type ContrastReading,
  type KnownDevelopment,
} from '@wedgebook/core';
import { developmentDefaults } from '@wedgebook/data';
import type { Negative } from '@wedgebook/notebook';
import type { Derive } from './derive.ts';
import type { WorkDocument } from './work.ts';

/**
 * @param derive - curves of the strips
 * @param negative - the one that is considered
 */
export function knownDevelopment(
  document: WorkDocument,
  derive: Derive,
  negative: Negative | null,
): KnownDevelopment {
  const strip = derive.stripOf(document, negative?.stripId ?? null);
  const development = negative?.development ?? strip?.development ?? null;
  const filmId = negative?.filmId ?? strip?.filmId ?? null;
  return {
    model: filmId === null ? null : contrastModelOf(document, derive, filmId),
    minutes: development !== null && development.minutes > 0 ? development.minutes : null,
    celsius: development?.celsius ?? USUAL_CELSIUS,
  };
}

const USUAL_CELSIUS = 20;
/** One time alone would only be a guess, for which the rule of the ways stands. */
const FEWEST_TIMES = 2;

function contrastModelOf(
  document: WorkDocument,
  derive: Derive,
  filmId: string,
): ContrastModel | null {
  const { measure } = document.developmentPlan;
  const readings = document.strips.flatMap((strip): ContrastReading[] => {
    const { material, treatment, development } = strip;
    if (material !== 'film' || strip.filmId !== filmId || treatment !== null) return [];
    if (development === null || !(development.minutes > 0)) return [];
    const { curve } = derive.fit(document, strip, document.plan.curveFamily);
    const contrast = curve === null ? null : contrastOf(curve, measure);
    return contrast === null || !(contrast.value > 0) ? [] : [{ ...development, contrast }];
  });
  if (new Set(readings.map(({ minutes }) => minutes)).size < FEWEST_TIMES) return null;
  const fit = fitContrastModel(readings, {
    temperatureCoefficient: developmentDefaults.temperatureCoefficient.value,
  });
  return fit.status === 'ok' ? fit.model : null;
}
