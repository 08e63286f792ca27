/** The contract's keys of `times` first, then what else is known. */
import {
  exactly,
  LOG_STOP,
  type ContrastModel,
  type Estimate,
  type ExposureIndex,
} from '@wedgebook/core';
import type { Drift } from '../times/drift.ts';
import type { Ladder } from '../times/ladders.ts';
import type { Order } from '../times/order.ts';
import type { PlannedTimes } from '../times/planned-times.ts';
import type { Times } from '../verbs/times.ts';
import { intervalOf } from './figures.ts';
import { cautionsJson } from './treat-json.ts';

export function timesJson(result: Times): object {
  const { order, planned, strips } = result;
  const { model, surface } = planned;
  return {
    contrastModel: model && {
      family: model.family,
      contrastInfinity: model.contrastInfinity,
      rate: model.rate,
      delayMinutes: model.delayMinutes,
      temperatureCoefficient: coefficientJson(model.temperatureCoefficient, order),
      referenceCelsius: model.referenceCelsius,
      basis: model.basis,
      timingDeviation: model.timingDeviation,
      reason: model.reason,
    },
    strips: strips.map(({ strip, minutes, celsius, contrast, exposureIndex }, index) => ({
      strip: strip.name,
      minutes,
      celsius,
      contrast,
      exposureIndex: indexJson(exposureIndex),
      leftOutError: surface?.leftOut.find((one) => one.index === index)?.error ?? null,
    })),
    controlStrips: result.controlStrips,
    plan: planJson(planned.plan),
    measure: order.measure,
    target: planned.target && {
      value: planned.target.value,
      standardError: planned.target.error > 0 ? planned.target.error : null,
      source: planned.target.source,
    },
    celsius: order.celsius,
    ...(planned.others.length > 0 && {
      otherTemperatures: planned.others.map(({ celsius, plan }) => ({
        celsius,
        plan: planJson(plan),
      })),
    }),
    ...(order.paper !== null && {
      paper: {
        name: order.paper.name,
        origin: order.paper.origin,
        exposureScale: order.paper.exposureScale,
        callierFactor: order.callierFactor,
        callierFactorError: order.callierFactorError,
        subjectRangeStops: order.subjectRangeStops,
        flareStops: order.flareStops,
      },
    }),
    surface: surface && {
      law: surface.law,
      leaveOneOutError: surface.leaveOneOutError,
      timingDeviation: surface.timingDeviation,
      residualStandardDeviation: surface.residualStandardDeviation,
      shapeCorrected: surface.correction !== null,
    },
    nextTest: planned.nextTest,
    ...(order.zones && { zones: result.ladders.map(ladderJson) }),
    ...(planned.bath !== null && { developmentOrBath: bathJson(planned.bath, order) }),
    ...(result.drift !== null && { drift: driftJson(result.drift) }),
    ...(result.cautions.length > 0 && { cautions: cautionsJson(result.cautions) }),
    warnings: result.warnings,
  };
}

/** Where the factor is from; a built-in one with its provenance. */
function coefficientJson(
  { value, standardError, origin }: ContrastModel['temperatureCoefficient'],
  { coefficient: { provenance } }: Order,
): object {
  if (origin === 'fitted' || provenance === null) return { value, standardError, origin };
  const { source, known, verified } = provenance;
  return { value, standardError, origin: 'built-in', source, known, verified };
}

function planJson(plan: PlannedTimes['plan']): object[] {
  return plan.map((row) => ({
    development: row.development,
    contrast: exactly(row.contrast),
    minutes: row.minutes && { ...row.minutes, interval: intervalOf(row.minutes) },
    exposureIndex: indexJson(row.exposureIndex),
    speedChangeStops: row.speedChangeStops,
    reachable: row.reachable,
  }));
}

function indexJson(index: ExposureIndex | null): object | null {
  return (
    index && {
      ...index.exact,
      arithmetic: index.arithmetic,
      degrees: index.degrees,
      standardErrorStops: errorInStops(index.exact),
    }
  );
}

/** Standard error of an exposure index in stops. */
export function errorInStops({ value, standardError }: Estimate): number | null {
  return standardError === null ? null : standardError / (value * Math.LN10 * LOG_STOP);
}

function ladderJson({ development, minutes, rungs }: Ladder): object {
  return {
    development,
    minutes,
    zones: rungs.map(({ name, logExposure, density, netDensity, print, grey, extrapolated }) => ({
      zone: name,
      logExposure,
      density,
      netDensity,
      print: print && { ...print, grey },
      extrapolated,
    })),
  };
}

function bathJson(bath: NonNullable<PlannedTimes['bath']>, { bath: asked }: Order): object {
  const way = (one: typeof bath.bath) => ({
    contrast: exactly(one.contrast),
    gain: one.gain,
    reachable: one.reachable,
    minutes: one.minutes,
    exposureIndex: indexJson(one.exposureIndex),
    speedChangeStops: one.speedChangeStops,
    graininess: one.graininess,
    graininessAtLeast: one.graininessAtLeast,
    ...one.commitment,
  });
  return {
    gainAskedFor: bath.gainAskedFor,
    development: way(bath.development),
    bath: {
      ...way(bath.bath),
      inBath: bath.inBath && {
        partsWater: asked?.partsWater,
        celsius: asked?.celsius,
        reachable: bath.inBath.reachable,
        gain: bath.inBath.gain,
        minutes: {
          value: bath.inBath.minutes,
          standardError: bath.inBath.minutesError?.standardError ?? null,
        },
        plausibleMinutes: bath.inBath.minutesError?.plausible ?? null,
      },
    },
  };
}

function driftJson({ measures }: Drift): object {
  return {
    measures: measures.map(({ measure, strips, chart }) =>
      chart.status === 'ok'
        ? {
            measure,
            centre: chart.centre,
            sigma: chart.sigma,
            warningLimits: chart.warningLimits,
            actionLimits: chart.actionLimits,
            strips: chart.points.map((point, i) => ({
              strip: strips[i]?.strip.name,
              processedOn: strips[i]?.strip.processedOn ?? null,
              ...point,
            })),
          }
        : { measure, centre: null, reason: chart.reason, strips: [] },
    ),
  };
}
