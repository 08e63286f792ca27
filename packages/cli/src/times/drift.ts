/** Control strips of one process over time. */
import {
  derivedBaseFog,
  driftChart,
  estimateOn,
  warning,
  type DriftChart,
  type Warning,
} from '@wedgebook/core';
import type { TimedStrip } from './timed-strips.ts';

const DRIFT_MEASURES = ['speedPoint', 'contrast', 'baseFog'] as const;
type DriftMeasure = (typeof DRIFT_MEASURES)[number];

export interface Drift {
  /** In the order of their days; those without a day in the order of the file. */
  readonly strips: readonly TimedStrip[];
  readonly measures: readonly {
    readonly measure: DriftMeasure;
    readonly strips: readonly TimedStrip[];
    readonly chart: DriftChart;
  }[];
  readonly warnings: readonly Warning[];
}

/** Error of one reading: less scatter than this among a few strips is luck. */
const LEAST_SIGMA: Readonly<Record<DriftMeasure, number>> = {
  speedPoint: 0.01,
  contrast: 0.005,
  baseFog: 0.005,
};

/** The strips marked as control strips, or else all of the commonest development time. */
export function driftOf(strips: readonly TimedStrip[]): Drift {
  const marked = strips.filter(({ strip }) => strip.control === true);
  const own = marked.length > 0 ? marked : commonest(strips);
  const ordered = own
    .map((strip, index) => ({ strip, index, day: strip.strip.processedOn ?? null }))
    .sort((a, b) =>
      a.day === null || b.day === null || a.day === b.day
        ? a.index - b.index
        : a.day < b.day
          ? -1
          : 1,
    )
    .map(({ strip }) => strip);
  const warnings: Warning[] = [];
  const measures = DRIFT_MEASURES.map((measure) => {
    const measured = ordered.flatMap((strip) => {
      const value = valueOf(strip, measure);
      return value === null ? [] : [{ strip, value }];
    });
    const values = measured.map(({ value }) => value);
    const chart = driftChart(values, { leastSigma: LEAST_SIGMA[measure] });
    if (chart.status === 'ok') {
      chart.points.forEach(({ signals }, i) => {
        const name = measured[i]?.strip.strip.name ?? '';
        for (const signal of signals) {
          warnings.push(warning('process-drifts', { strip: name, measure, signal }));
        }
      });
    }
    return { measure, strips: measured.map(({ strip }) => strip), chart };
  });
  if (measures.every(({ chart }) => chart.status !== 'ok')) {
    warnings.push(warning('too-few-control-strips', { count: ordered.length }));
  }
  return { strips: ordered, measures, warnings };
}

function valueOf(
  { curve, contrast, speedPoint }: TimedStrip,
  measure: DriftMeasure,
): number | null {
  if (measure === 'contrast') return contrast.value;
  if (measure === 'speedPoint') return speedPoint?.value ?? null;
  return estimateOn(curve, derivedBaseFog)?.value ?? null;
}

function commonest(strips: readonly TimedStrip[]): readonly TimedStrip[] {
  return [...grouped(strips).values()].reduce<readonly TimedStrip[]>(
    (most, group) => (group.length > most.length ? group : most),
    [],
  );
}

function grouped(strips: readonly TimedStrip[]): Map<string, TimedStrip[]> {
  const groups = new Map<string, TimedStrip[]>();
  for (const strip of strips) {
    const key = `${strip.minutes}|${strip.celsius ?? ''}`;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [strip]);
    else group.push(strip);
  }
  return groups;
}
