/** The measures of a film strip as JSON: the contract's keys first, then what else is known. */
import type { CharacteristicCurve, FamiliesCompared } from '@wedgebook/core';
import { fittedFacts } from '../strips/describe-strip.ts';
import type { MeasuredFilm } from './film-text.ts';
import { shownWarnings } from './warnings.ts';

export function filmJson({ fitted, measures, compared }: MeasuredFilm): object {
  const { curve } = fitted;
  return {
    ...fittedFacts(fitted),
    parameters: curve && parametersJson(curve),
    baseFog: measures?.baseFog ?? null,
    densityMax: measures?.densityMax ?? null,
    gamma: measures?.gamma ?? null,
    inertia: measures?.inertia ?? null,
    speedPoint: measures?.speedPoint ?? null,
    isoTriangle: measures?.isoTriangle ?? null,
    speed: measures?.speed ?? null,
    contrastIndex: measures?.contrastIndex ?? null,
    averageGradients: measures?.averageGradients ?? [],
    fractionalGradientSpeed: measures?.fractionalGradientSpeed ?? null,
    hurterDriffieldSpeed: measures?.hurterDriffieldSpeed ?? null,
    usefulRange: measures?.usefulRange ?? null,
    residualStandardDeviation: curve?.residualStandardDeviation ?? null,
    degreesOfFreedom: curve?.degreesOfFreedom ?? null,
    ...(compared !== null && { comparison: comparisonJson(compared) }),
    warnings: shownWarnings(fitted.warnings, measures?.warnings ?? []),
  };
}

function comparisonJson({ verdict, best, families }: FamiliesCompared): object {
  return {
    verdict,
    best,
    families: families.map(({ family, status, difference, weight, ...rest }) => ({
      family,
      status,
      difference,
      weight,
      parameterCount: rest.parameterCount,
      residualStandardDeviation: rest.residualStandardDeviation,
    })),
  };
}

/** Errors are those of this family's fit alone; the measures' count the rivals in. */
function parametersJson({ parameterNames, parameters, covariance }: CharacteristicCurve): object[] {
  return parameters.map((value, index) => {
    const variance = covariance?.[index * (parameters.length + 1)];
    return {
      name: parameterNames[index] ?? String(index + 1),
      value,
      standardError: variance === undefined ? null : Math.sqrt(variance),
    };
  });
}
