/** Development times, for reading. */
import { clockTime, type ExposureIndex } from '@wedgebook/core';
import { measureWords, TIMES_WORDS as W } from '../times/times-words.ts';
import type { Drift } from '../times/drift.ts';
import type { Ladder } from '../times/ladders.ts';
import type { Order } from '../times/order.ts';
import type { PlannedTimes } from '../times/planned-times.ts';
import type { Times } from '../verbs/times.ts';
import { alignedTable, factList } from './aligned-table.ts';
import { estimateText, fixed, intervalOf, minutesText } from './figures.ts';
import { markText } from './provenance-text.ts';
import { errorInStops } from './times-json.ts';
import { cautionsText } from './treat-text.ts';
import { warningLines } from './warnings.ts';
import { wrapped } from './wrapped.ts';

const right = (titles: readonly string[]) =>
  titles.map((title, index) => ({ title, align: index === 0 ? 'left' : 'right' }) as const);

/** The law, the strips behind it, the plan, and what else was asked for. */
export function timesText(result: Times): string {
  const { order, planned, ladders, drift, cautions, warnings } = result;
  return [
    `${W.title}: ${measureWords(order.measure)}\n`,
    modelFacts(result),
    stripTable(result),
    planTable(planned.plan, order.celsius, planned.target),
    ...planned.others.map(({ celsius, plan }) => planTable(plan, celsius, null)),
    order.paper === null
      ? ''
      : `${W.flare(fixed(order.flareStops.value, 2), order.flareStops.source)}\n`,
    nextText(planned),
    bathTable(planned, order),
    ladderTables(ladders),
    drift === null ? '' : driftTables(drift),
    warningLines(warnings, ''),
    cautions.length === 0 ? '' : `\n${cautionsText(cautions)}`,
  ].join('');
}

function modelFacts({ planned: { model }, order }: Times): string {
  if (model === null) return '';
  const { family, contrastInfinity, rate, delayMinutes, temperatureCoefficient: q } = model;
  const { provenance } = order.coefficient;
  const unfitted = provenance === null ? W.given : W.builtIn(markText(provenance));
  const source = q.origin === 'fitted' ? W.fitted : unfitted;
  return factList([
    [W.family, family, W.families[family]],
    ...(contrastInfinity === null
      ? []
      : [[W.contrastInfinity[0], estimateText(contrastInfinity), W.contrastInfinity[1]]]),
    [W.rate[family][0], estimateText(rate), W.rate[family][1]],
    [W.delay[0], estimateText(delayMinutes, 2), W.delay[1]],
    [W.coefficient[0], estimateText(q, 2), `${W.coefficient[1]}; ${source}`],
  ]);
}

function stripTable({ strips, controlStrips, planned: { surface, model } }: Times): string {
  const table = alignedTable(
    right(W.stripColumns),
    strips.map(({ strip, minutes, celsius, contrast, exposureIndex }, index) => [
      strip.name,
      clockTime(minutes),
      fixed(celsius, 1),
      estimateText(contrast),
      indexText(exposureIndex),
      fixed(surface?.leftOut.find((one) => one.index === index)?.error, 3),
    ]),
    '  ',
  );
  const error = surface?.leaveOneOutError ?? null;
  const told =
    surface === null
      ? ''
      : `${W.scatter(fixed(error, 3), fixed(100 * surface.timingDeviation, 1))}\n`;
  const controls = controlStrips === 0 ? '' : `${W.controls(controlStrips)}\n`;
  const timing =
    model !== null && model.timingDeviation > 0
      ? wrapped(W.timing(fixed(100 * model.timingDeviation, 1)), 96, '  ')
      : '';
  return `${W.strips}\n${table}${timing}${controls}${told}`;
}

function planTable(
  plan: PlannedTimes['plan'],
  celsius: number,
  target: PlannedTimes['target'],
): string {
  if (plan.length === 0) return '';
  const table = alignedTable(
    right(W.planColumns),
    plan.map((row) => [
      row.development,
      fixed(row.contrast, 3),
      row.minutes === null ? W.outOfReach : clockTime(row.minutes.value),
      intervalText(row.minutes),
      indexText(row.exposureIndex),
      row.speedChangeStops === null ? '-' : fixed(row.speedChangeStops, 2),
    ]),
    '  ',
  );
  const aim = target === null ? '' : `; ${W.target(fixed(target.value, 3), target.source)}`;
  return `${W.plan(celsius)}${aim}\n${table}`;
}

function intervalText(minutes: PlannedTimes['plan'][number]['minutes']): string {
  const interval = minutes && intervalOf(minutes);
  return interval === null ? '-' : W.interval(clockTime(interval[0]), clockTime(interval[1]));
}

function nextText({ nextTest }: PlannedTimes): string {
  if (nextTest === null) return '';
  const seconds = (minutes: number) => fixed(60 * minutes, 0);
  const { minutes, errorNow, errorAfter } = nextTest;
  return `${W.nextTest(clockTime(minutes), seconds(errorNow), seconds(errorAfter))}\n`;
}

function bathTable({ bath }: PlannedTimes, { bath: asked }: Order): string {
  if (bath === null) return '';
  const { development } = bath;
  const row = (name: string, way: typeof bath.bath) => [
    name,
    fixed(way.contrast, 3),
    way.reachable ? W.yes : W.no,
    way.minutes === null ? '-' : clockTime(way.minutes.value),
    indexText(way.exposureIndex),
    way.speedChangeStops === null ? '-' : fixed(way.speedChangeStops, 2),
    `${way.graininessAtLeast ? W.atLeast : ''}${fixed(way.graininess, 2)}`,
    W.worksOn[way.commitment.worksOn],
  ];
  const table = alignedTable(
    right(W.bathColumns),
    [row(development.plan.development, development), row(W.bathRow, bath.bath)],
    '  ',
  );
  return `${W.bathTitle(development.plan.development)}\n${table}${inBathText(bath, asked)}\n${W.bathNote}\n`;
}

/** Minutes in the bath, or the most that it gives. */
function inBathText(
  { inBath, gainAskedFor }: NonNullable<PlannedTimes['bath']>,
  asked: Order['bath'],
): string {
  if (inBath === null || asked === null) return W.ownBath;
  const bath = `1+${asked.partsWater}, ${asked.celsius} °C`;
  const minutes = minutesText(inBath.minutes);
  if (!inBath.reachable) {
    return W.notInBath(bath, fixed(gainAskedFor, 3), fixed(inBath.mostGain, 3), minutes);
  }
  const [low = 0, high = null] = inBath.minutesError?.plausible ?? [];
  const interval =
    high === null
      ? W.inBathFrom(minutesText(low))
      : W.inBathBetween(minutesText(low), minutesText(high));
  return W.inBath(bath, minutes, interval);
}

function ladderTables(ladders: readonly Ladder[]): string {
  return ladders
    .map(({ development, minutes, rungs }) => {
      const table = alignedTable(
        right(W.zoneColumns),
        rungs.map(({ name, density, netDensity, print, extrapolated }) => [
          `${name}${extrapolated ? W.outside : ''}`,
          estimateText(density, 2),
          fixed(netDensity, 2),
          estimateText(print?.density, 2),
          estimateText(print?.lightness, 0),
        ]),
        '  ',
      );
      return `${W.zonesTitle(development, clockTime(minutes))}\n${table}`;
    })
    .join('');
}

function driftTables({ measures }: Drift): string {
  return measures
    .map(({ measure, strips, chart }) => {
      const [name, decimals] = W.driftMeasures[measure];
      if (chart.status !== 'ok') return `${W.noDrift(name, chart.reason)}\n`;
      const [low, high] = chart.actionLimits;
      const table = alignedTable(
        right(W.driftColumns),
        chart.points.map((point, i) => [
          strips[i]?.strip.name ?? '',
          strips[i]?.strip.processedOn ?? '-',
          fixed(point.value, decimals),
          fixed(point.deviations, 1),
          point.setsLimits ? W.setsLimits : point.signals.map((s) => W.signals[s]).join(', '),
        ]),
        '  ',
      );
      const limits = W.limits(
        fixed(chart.centre, decimals),
        fixed(low, decimals),
        fixed(high, decimals),
      );
      return `${name}; ${limits}\n${table}`;
    })
    .join('');
}

/** Such as `100/21° ± 0.1`: never an ISO speed, a time of development is no test of one. */
function indexText(index: ExposureIndex | null): string {
  if (index === null) return '-';
  const error = errorInStops(index.exact);
  const text = `${index.arithmetic}/${index.degrees}°`;
  return error === null ? text : `${text} ± ${error < 0.005 ? '<0.01' : fixed(error, 2)}`;
}
