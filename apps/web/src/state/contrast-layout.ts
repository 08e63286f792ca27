/** The chart of contrast against time as the app draws it, at the temperature of the plan. */
import { layoutContrastChart, type ContrastLaw } from '@wedgebook/charts';
import {
  contrastAt,
  equivalentMinutes,
  type ContrastModel,
  type PlannedDevelopment,
} from '@wedgebook/core';
import { developmentDefaults } from '@wedgebook/data';
import type { DevelopmentPlan } from '@wedgebook/notebook';
import type { SceneLayout } from '../parts/scene-chart.ts';
import { development as text, measureName } from '../text/development.ts';
import type { Laws, TimedStrip } from './derive-development.ts';

const SAMPLES = 80;
/** How far beyond the longest strip the plan may stretch the chart. */
const STRETCH = 1.8;
/** Part of the shortest time at which the laws begin: below it nothing was seen. */
const BELOW = 0.4;

export function contrastLayout(
  { model, rival }: Laws,
  timed: readonly TimedStrip[],
  plan: readonly PlannedDevelopment[],
  { celsius, measure }: DevelopmentPlan,
): SceneLayout {
  const q = model?.temperatureCoefficient.value ?? 1;
  const strips = timed.map(({ strip, development, contrast }) => ({
    name: strip.name,
    minutes: equivalentMinutes(development.minutes, development.celsius, celsius, q),
    contrast: contrast.value,
    standardError: contrast.standardError,
  }));
  const tested = Math.max(1, ...strips.map(({ minutes }) => minutes));
  const planned = plan.flatMap(({ minutes }) => (minutes === null ? [] : [minutes.value]));
  const longest = Math.max(1.1 * tested, ...planned.filter((m) => m < STRETCH * tested));
  const from = BELOW * Math.min(...strips.map(({ minutes }) => minutes));
  const lawOf = (law: ContrastModel | null): ContrastLaw | null =>
    law === null
      ? null
      : {
          label: text.families[law.family],
          points: Array.from({ length: SAMPLES }, (_, i) => {
            const minutes = from + ((longest - from) * i) / (SAMPLES - 1);
            const { value, standardError } = contrastAt(law, minutes, celsius);
            return { minutes, contrast: value, standardError };
          }),
        };
  const [law, other] = [lawOf(model), lawOf(rival)];
  const limit = model?.contrastInfinity?.value ?? null;
  const targets = plan.map(({ development, contrast, minutes }) => ({
    label: development,
    contrast,
    minutes: minutes === null || minutes.value > longest * 1.02 ? null : minutes.value,
  }));
  return (width, height) =>
    layoutContrastChart({
      width,
      height,
      title: text.chart,
      measure: measureName(measure),
      celsius,
      strips,
      law,
      rival: other,
      targets,
      limit:
        limit === null
          ? null
          : { contrast: limit, usable: limit * developmentDefaults.usablePart.value },
    });
}
