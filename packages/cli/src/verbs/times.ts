/** `times`: development times from strips of one film developed for different times. */
import {
  developmentPlan,
  filmMeasures,
  fitContrastModel,
  fitSpeedModel,
  warning,
  type ContrastModel,
  type Estimate,
  type ExposureIndex,
  type FilmMeasures,
  type PlannedDevelopment,
  type SpeedModel,
  type Warning,
} from '@wedgebook/core';
import { developmentDefaults } from '@wedgebook/data';
import { inputFault, type ReadingsStrip } from '@wedgebook/notebook';
import type { Arguments } from '../input/arguments.ts';
import { onlyFile } from '../input/only-file.ts';
import { fileName, readReadingsFile } from '../input/read-file.ts';
import {
  requireSource,
  STRIP_OPTIONS,
  stripOptions,
  type StripOptions,
} from '../input/strip-options.ts';
import { markText } from '../output/provenance-text.ts';
import { timesText } from '../output/times-text.ts';
import { shownWarnings, type ShownWarning } from '../output/warnings.ts';
import { fittedStrip } from '../strips/fitted-strip.ts';
import { stripsOf } from '../strips/strips-of.ts';
import { TIMES_WORDS } from '../text.ts';
import type { Verb } from './verb.ts';

const MEASURES = ['contrast-index', 'gradient-1.30', 'gradient-1.50', 'gamma'] as const;
export type ContrastMeasure = (typeof MEASURES)[number];

/** A strip with its time, contrast and speed point. */
export interface TimedStrip {
  readonly strip: ReadingsStrip;
  readonly minutes: number;
  readonly celsius: number | null;
  readonly contrast: Estimate;
  /** Null where the exposure is relative or the speed point is not reached. */
  readonly speedPoint: Estimate | null;
  readonly exposureIndex: ExposureIndex | null;
}

export interface Times {
  readonly measure: ContrastMeasure;
  readonly target: { readonly value: number; readonly source: string };
  readonly celsius: number;
  readonly strips: readonly TimedStrip[];
  readonly model: ContrastModel | null;
  readonly plan: readonly PlannedDevelopment[];
  readonly coefficientSource: string;
  readonly warnings: readonly ShownWarning[];
}

export const times: Verb = {
  options: {
    ...STRIP_OPTIONS,
    measure: { type: 'string' },
    target: { type: 'string' },
    celsius: { type: 'string' },
    'temperature-coefficient': { type: 'string' },
    'textural-stops': { type: 'string' },
    family: { type: 'string' },
  },
  run: async (given, io) => {
    const file = onlyFile(given);
    const options = stripOptions(given, file);
    const measure = given.choice('measure', MEASURES) ?? 'contrast-index';
    const order = orderOf(given, measure);
    const readings = await readReadingsFile(file, io, options);
    requireSource(readings, options);
    const { strips, warnings } = stripsOf('film', readings, fileName(file));
    const timed = timedStrips(strips, options, measure);
    if (timed.strips.length === 0) {
      throw inputFault.noTimes({ file: fileName(file) }, TIMES_WORDS.measure[measure]);
    }
    const planned = planOf(timed.strips, order);
    const result: Times = {
      measure,
      target: order.target,
      celsius: order.celsius,
      strips: timed.strips,
      model: planned.model,
      plan: planned.plan,
      coefficientSource: order.coefficientSource,
      warnings: shownWarnings(warnings, timed.warnings, planned.warnings),
    };
    return { json: timesJson(result), text: () => timesText(result) };
  },
};

interface Order {
  readonly target: { readonly value: number; readonly source: string };
  readonly celsius: number;
  readonly coefficient: number;
  readonly coefficientSource: string;
  readonly texturalStops: number;
  readonly family: 'automatic' | 'first-order' | 'log-linear';
}

/** What is asked, with the built-in numbers and their sources where nothing is. */
function orderOf(given: Arguments, measure: ContrastMeasure): Order {
  const { temperatureCoefficient, texturalStops, aims } = developmentDefaults;
  const aim = aims.find((candidate) => candidate.measure === measure);
  const target = given.number('target', 0.05, 5);
  const coefficient = given.number('temperature-coefficient', 1, 6);
  return {
    target:
      target === undefined && aim !== undefined
        ? {
            value: aim.value,
            source: `${aim.provenance.source} (${markText(aim.provenance)})`,
          }
        : { value: target ?? 0.58, source: TIMES_WORDS.yourTarget },
    celsius: given.number('celsius', 0, 60) ?? 20,
    coefficient: coefficient ?? temperatureCoefficient.value,
    coefficientSource:
      coefficient === undefined ? markText(temperatureCoefficient.provenance) : TIMES_WORDS.given,
    texturalStops: given.number('textural-stops', 4, 12) ?? texturalStops.value,
    family: given.choice('family', ['automatic', 'first-order', 'log-linear']) ?? 'automatic',
  };
}

function timedStrips(
  strips: readonly ReadingsStrip[],
  options: StripOptions,
  measure: ContrastMeasure,
): { readonly strips: readonly TimedStrip[]; readonly warnings: readonly Warning[] } {
  const warnings: Warning[] = [];
  const untreated = strips.filter((strip) => strip.treatment === null);
  if (untreated.length < strips.length) {
    warnings.push(warning('treated-left-out', { count: strips.length - untreated.length }));
  }
  const timed = untreated.flatMap((strip): TimedStrip[] => {
    const { minutes, celsius, name } = strip;
    if (minutes === null || minutes === 0) {
      warnings.push(warning('development-time-missing', { strip: name }));
      return [];
    }
    const fitted = fittedStrip(strip, options.exposure, options.model);
    const { curve, exposureKind } = fitted;
    // What concerns a single curve is for the verb film to tell; here only the exposures matter.
    warnings.push(...fitted.warnings.filter(({ code }) => code.startsWith('exposure-')));
    const measures = curve && filmMeasures(curve, { exposureKind });
    const contrast = measures && contrastOf(measures, measure);
    if (contrast === null) {
      const words = TIMES_WORDS.measure[measure];
      warnings.push(warning('contrast-not-measured', { strip: name, measure: words }));
      return [];
    }
    const speed = measures?.speed ?? null;
    return [
      {
        strip,
        minutes,
        celsius,
        contrast,
        speedPoint: speed === null ? null : (measures?.speedPoint?.logExposure ?? null),
        exposureIndex: speed,
      },
    ];
  });
  return { strips: timed, warnings };
}

function contrastOf(measures: FilmMeasures, measure: ContrastMeasure): Estimate | null {
  const chord = (to: string) =>
    measures.averageGradients.find((gradient) => gradient.to === to)?.value ?? null;
  switch (measure) {
    case 'contrast-index':
      return measures.contrastIndex;
    case 'gamma':
      return measures.gamma;
    case 'gradient-1.30':
      return chord('+1.30');
    case 'gradient-1.50':
      return chord('+1.50');
  }
}

function planOf(
  strips: readonly TimedStrip[],
  order: Order,
): {
  readonly model: ContrastModel | null;
  readonly plan: readonly PlannedDevelopment[];
  readonly warnings: readonly Warning[];
} {
  const { coefficient, celsius, texturalStops, family, target } = order;
  const fit = fitContrastModel(
    strips.map((strip) => ({
      minutes: strip.minutes,
      contrast: strip.contrast,
      ...(strip.celsius !== null && { celsius: strip.celsius }),
    })),
    { temperatureCoefficient: coefficient, family },
  );
  if (fit.status !== 'ok') return { model: null, plan: [], warnings: fit.warnings };
  const plan = developmentPlan(fit.model, {
    normalContrast: target.value,
    celsius,
    texturalStops,
    speed: speedOf(strips, fit.model.temperatureCoefficient.value),
    usablePart: developmentDefaults.usablePart.value,
    shortestMinutes: developmentDefaults.shortestMinutes.value,
  });
  return {
    model: fit.model,
    plan,
    warnings: [...fit.warnings, ...plan.flatMap((row) => row.warnings)],
  };
}

function speedOf(strips: readonly TimedStrip[], temperatureCoefficient: number): SpeedModel | null {
  const readings = strips.flatMap(({ minutes, celsius, speedPoint }) =>
    speedPoint === null
      ? []
      : [{ minutes, logExposure: speedPoint, ...(celsius !== null && { celsius }) }],
  );
  return readings.length === 0 ? null : fitSpeedModel(readings, { temperatureCoefficient });
}

/** The contract's keys first, then what else is known. */
function timesJson(result: Times): object {
  const { model } = result;
  return {
    contrastModel: model && {
      family: model.family,
      contrastInfinity: model.contrastInfinity,
      rate: model.rate,
      delayMinutes: model.delayMinutes,
      temperatureCoefficient: model.temperatureCoefficient,
      referenceCelsius: model.referenceCelsius,
      basis: model.basis,
      reason: model.reason,
    },
    strips: result.strips.map(({ strip, minutes, celsius, contrast, exposureIndex }) => ({
      strip: strip.name,
      minutes,
      celsius,
      contrast,
      exposureIndex: indexJson(exposureIndex),
    })),
    plan: result.plan.map((row) => ({
      development: row.development,
      contrast: { value: row.contrast, standardError: null },
      minutes: row.minutes,
      exposureIndex: indexJson(row.exposureIndex),
      speedChangeStops: row.speedChangeStops,
      reachable: row.reachable,
    })),
    measure: result.measure,
    target: result.target,
    celsius: result.celsius,
    warnings: result.warnings,
  };
}

function indexJson(index: ExposureIndex | null): object | null {
  return index && { ...index.exact, arithmetic: index.arithmetic, degrees: index.degrees };
}
