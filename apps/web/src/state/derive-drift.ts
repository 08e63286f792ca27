/** Control strips of one film in the order of their days, and the control chart of each measure. */
import { driftChart, type DriftChart, type DriftSignal, type Estimate } from '@wedgebook/core';
import type { DevelopedStrip } from './derive-development.ts';

export type DriftMeasure = 'speed-point' | 'contrast' | 'base-fog';

/** One measure of one control strip; null where the strip does not give it. */
interface DriftReading {
  readonly value: number;
  readonly deviations: number | null;
  readonly setsLimits: boolean;
  readonly signals: readonly DriftSignal[];
}

interface MeasureDrift {
  readonly measure: DriftMeasure;
  readonly chart: DriftChart;
  /** One for each control strip. */
  readonly readings: readonly (DriftReading | null)[];
}

export interface DriftView {
  /** Control strips with a day, earliest first. */
  readonly strips: readonly DevelopedStrip[];
  /** Control strips without a day, which have no place in the order. */
  readonly undated: readonly DevelopedStrip[];
  /** True where they were not all developed alike. */
  readonly unlike: boolean;
  readonly measures: readonly MeasureDrift[];
}

/** Half of the last digit that a densitometer shows: less than this is rounding, not drift. */
const LEAST_SIGMA = 0.005;

/**
 * @param developed - strips of the film, control strips among them
 * @param baseFogOf - base + fog of a strip, or null
 * @param first - how many strips set the limits, at least 3
 */
export function driftOf(
  developed: readonly DevelopedStrip[],
  baseFogOf: (strip: DevelopedStrip) => Estimate | null,
  first: number,
): DriftView {
  const control = developed.filter(({ strip }) => strip.control);
  const strips = control
    .filter(({ strip }) => strip.processedOn !== null)
    .toSorted((a, b) => (a.strip.processedOn ?? '').localeCompare(b.strip.processedOn ?? ''));
  const how = new Set(
    control.map(({ development: d }) => (d === null ? '' : `${d.minutes} ${d.celsius}`)),
  );
  const measures = [
    ['speed-point', (strip: DevelopedStrip) => strip.speedPoint],
    ['contrast', (strip: DevelopedStrip) => strip.contrast],
    ['base-fog', baseFogOf],
  ] as const;
  return {
    strips,
    undated: control.filter(({ strip }) => strip.processedOn === null),
    unlike: how.size > 1,
    measures: measures.map(([measure, of]) => driftOfMeasure(measure, strips.map(of), first)),
  };
}

function driftOfMeasure(
  measure: DriftMeasure,
  found: readonly (Estimate | null)[],
  first: number,
): MeasureDrift {
  const read = found.flatMap((estimate) => (estimate === null ? [] : [estimate]));
  const own = read.slice(0, first).map(({ standardError }) => standardError ?? 0);
  // Differences no larger than the error of a single strip are no scatter of the process.
  const errorOfOne = own.reduce((sum, error) => sum + error, 0) / Math.max(1, own.length);
  const chart = driftChart(
    read.map(({ value }) => value),
    { first, leastSigma: Math.max(LEAST_SIGMA, errorOfOne) },
  );
  let next = 0;
  const readings = found.map((estimate): DriftReading | null => {
    if (estimate === null) return null;
    const point = chart.status === 'ok' ? chart.points[next++] : undefined;
    return {
      value: estimate.value,
      deviations: point?.deviations ?? null,
      setsLimits: point?.setsLimits ?? false,
      signals: point?.signals ?? [],
    };
  });
  return { measure, chart, readings };
}

/** What the latest strips point to, or null where nothing signals. */
export type DriftDirection = 'more' | 'less' | 'fog' | 'speed' | 'contrast';

/**
 * Reads what the signals of the latest strip have in common.
 *
 * Less exposure at the speed point and more contrast go with more development, the reverse with
 * less; base + fog that rises alone does not.
 */
export function directionOf({ measures }: DriftView): DriftDirection | null {
  const latest = (wanted: DriftMeasure): number => {
    const reading = measures.find(({ measure }) => measure === wanted)?.readings.at(-1) ?? null;
    return reading !== null && reading.signals.length > 0 ? Math.sign(reading.deviations ?? 0) : 0;
  };
  const [speed, contrast, fog] = [latest('speed-point'), latest('contrast'), latest('base-fog')];
  if (contrast > 0 && speed <= 0) return 'more';
  if (contrast < 0 && speed >= 0) return 'less';
  if (contrast !== 0) return 'contrast';
  if (speed !== 0) return 'speed';
  return fog > 0 ? 'fog' : null;
}
