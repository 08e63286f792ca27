/** `film`: the measures of film strips. */
import { filmMeasures, type FilmMeasures } from '@wedgebook/core';
import { onlyFile } from '../input/only-file.ts';
import { fileName, readReadingsFile } from '../input/read-file.ts';
import { requireSource, STRIP_OPTIONS, stripOptions } from '../input/strip-options.ts';
import { shownWarnings, warningLines } from '../output/warnings.ts';
import { filmBlock, filmSummary } from '../output/film-text.ts';
import { fittedStrip, type FittedStrip } from '../strips/fitted-strip.ts';
import { stripFacts } from '../strips/describe-strip.ts';
import { stripsOf } from '../strips/strips-of.ts';
import type { Verb } from './verb.ts';

export const film: Verb = {
  options: { ...STRIP_OPTIONS, 'iso-tolerance': { type: 'string' } },
  run: async (given, io) => {
    const file = onlyFile(given);
    const options = stripOptions(given, file);
    const isoTolerance = given.number('iso-tolerance', 0, 1) ?? 0.05;
    const readings = await readReadingsFile(file, io, options);
    requireSource(readings, options);
    const { strips, warnings } = stripsOf('film', readings, fileName(file));
    const measured = strips.map((strip) => {
      const fitted = fittedStrip(strip, options.exposure, options.model);
      const { curve, exposureKind } = fitted;
      const measures = curve && filmMeasures(curve, { exposureKind, isoTolerance });
      return { fitted, measures };
    });
    const fileWarnings = shownWarnings(warnings);
    return {
      json: {
        strips: measured.map(({ fitted, measures }) => filmJson(fitted, measures)),
        warnings: fileWarnings,
      },
      text: () =>
        [
          warningLines(fileWarnings, ''),
          measured.length > 1 ? filmSummary(measured) : '',
          ...measured.map(({ fitted, measures }) => filmBlock(fitted, measures)),
        ]
          .filter((part) => part !== '')
          .join('\n'),
    };
  },
};

/** The contract's keys first, then what else is known. */
function filmJson(fitted: FittedStrip, measures: FilmMeasures | null): object {
  const { strip, curve, points, exposureKind, readings } = fitted;
  return {
    strip: strip.name,
    ...stripFacts(strip),
    points,
    readings: readings.densities.length,
    unexposedReadings: readings.unexposedDensities?.length ?? 0,
    exposureKind,
    model: curve?.family ?? null,
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
    warnings: shownWarnings(fitted.warnings, measures?.warnings ?? []),
  };
}

function parametersJson(names: readonly string[], values: readonly number[]): object[] {
  return values.map((value, index) => ({ name: names[index] ?? String(index + 1), value }));
}
