/** Development times, for reading. */
import type { ExposureIndex } from '@wedgebook/core';
import { TIMES_WORDS as W } from '../text.ts';
import type { Times } from '../verbs/times.ts';
import { alignedTable, factList } from './aligned-table.ts';
import { estimateText, fixed } from './figures.ts';
import { warningLines } from './warnings.ts';

/** The law, the strips behind it, and the plan. */
export function timesText(result: Times): string {
  const { strips, plan, measure, target, celsius, warnings } = result;
  const right = (titles: readonly string[]) =>
    titles.map((title, index) => ({ title, align: index === 0 ? 'left' : 'right' }) as const);
  const stripTable = alignedTable(
    right(W.stripColumns),
    strips.map(({ strip, minutes, celsius: own, contrast, exposureIndex }) => [
      strip.name,
      fixed(minutes, 2),
      fixed(own, 1),
      estimateText(contrast),
      indexText(exposureIndex),
    ]),
    '  ',
  );
  const planTable = alignedTable(
    right(W.planColumns),
    plan.map((row) => [
      row.development,
      fixed(row.contrast, 3),
      row.minutes === null ? W.outOfReach : estimateText(row.minutes, 2),
      indexText(row.exposureIndex),
      row.speedChangeStops === null ? '-' : fixed(row.speedChangeStops, 2),
    ]),
    '  ',
  );
  return [
    `${W.title}: ${W.measure[measure]}\n`,
    modelFacts(result),
    `${W.strips}\n${stripTable}`,
    planTable === ''
      ? ''
      : `${W.plan(celsius)}; ${W.target(fixed(target.value, 3), target.source)}\n${planTable}`,
    warningLines(warnings, ''),
  ].join('');
}

function modelFacts({ model, coefficientSource }: Times): string {
  if (model === null) return '';
  const { family, contrastInfinity, rate, delayMinutes, temperatureCoefficient: q } = model;
  const source = q.origin === 'fitted' ? W.fitted : coefficientSource;
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

/** Such as `100/21°`: never an ISO speed, a time of development is no test of one. */
function indexText(index: ExposureIndex | null): string {
  return index === null ? '-' : `${index.arithmetic}/${index.degrees}°`;
}
