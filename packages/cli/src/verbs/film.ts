/** `film`: the measures of film strips. */
import { compareFamilies, filmMeasures, type FamiliesCompared } from '@wedgebook/core';
import { onlyFile } from '../input/only-file.ts';
import { fileName, readReadingsFile } from '../input/read-file.ts';
import { requireSource, STRIP_OPTIONS, stripOptions } from '../input/strip-options.ts';
import { shownWarnings, warningLines } from '../output/warnings.ts';
import { filmBlock, filmSummary, type MeasuredFilm } from '../output/film-text.ts';
import { fittedStrip } from '../strips/fitted-strip.ts';
import { fittedFacts } from '../strips/describe-strip.ts';
import { stripsOf } from '../strips/strips-of.ts';
import type { Verb } from './verb.ts';

export const film: Verb = {
  options: { ...STRIP_OPTIONS, 'iso-tolerance': { type: 'string' }, compare: { type: 'boolean' } },
  run: async (given, io) => {
    const file = onlyFile(given);
    const options = stripOptions(given, file);
    const isoTolerance = given.number('iso-tolerance', 0, 1) ?? 0.05;
    const readings = await readReadingsFile(file, io, options);
    requireSource(readings, options);
    const { strips, warnings } = stripsOf('film', readings, fileName(file));
    const measured = strips.map((strip): MeasuredFilm => {
      const fitted = fittedStrip(strip, options.exposure, options.model);
      const { curve, exposureKind } = fitted;
      const measures = curve && filmMeasures(curve, { exposureKind, isoTolerance });
      const compared =
        curve !== null && given.flag('compare')
          ? compareFamilies(fitted.readings, curve.family)
          : null;
      return { fitted, measures, compared };
    });
    const fileWarnings = shownWarnings(warnings);
    return {
      json: {
        strips: measured.map(filmJson),
        warnings: fileWarnings,
      },
      text: () =>
        [
          warningLines(fileWarnings, ''),
          measured.length > 1 ? filmSummary(measured) : '',
          ...measured.map(filmBlock),
        ]
          .filter((part) => part !== '')
          .join('\n'),
    };
  },
};

/** The contract's keys first, then what else is known. */
function filmJson({ fitted, measures, compared }: MeasuredFilm): object {
  const { curve } = fitted;
  return {
    ...fittedFacts(fitted),
    parameters: curve && parametersJson(curve.parameterNames, curve.parameters),
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

function parametersJson(names: readonly string[], values: readonly number[]): object[] {
  return values.map((value, index) => ({ name: names[index] ?? String(index + 1), value }));
}
