/** Words of the ways out. */
import { formatMinutes, formatNumber, formatSigned } from '@wedgebook/charts';
import type { NextRoll, WayId, WayLimit, WayOrder, WayOut } from '@wedgebook/core';
import type { WayNote } from '@wedgebook/data';
import { trimmed } from './phrases.ts';

const names: Readonly<Record<WayId, string>> = {
  'print-to-fit': 'Print on the grade it calls for',
  'split-exposure': 'Split soft and hard exposure',
  'selenium-and-paper': 'Both: short selenium bath, harder paper',
  selenium: 'Selenium bath',
  'chromium-partial': 'Chromium, redeveloped in part',
  chromium: 'Chromium, redeveloped in full',
  'chromium-twice': 'Chromium, a second pass',
  'chromium-then-selenium': 'Both: chromium, then selenium',
  'reduce-proportional': 'Proportional reducer',
  'reduce-superproportional': 'Superproportional reducer',
  'reduce-surface': 'Surface reducer',
  'next-roll': 'Leave it; develop the next roll otherwise',
};

const limits: Readonly<Record<WayLimit, string>> = {
  'falls-short': 'falls short of the aim',
  overshoots: 'goes past the aim',
  'range-unchanged': 'leaves the range as it is',
  'beyond-paper': 'more than variable-contrast paper serves',
  'shadow-lost': 'nothing to take without losing the shadow',
  'beyond-film': 'more than the film can be developed to',
};

const stains: Readonly<Record<WayNote['stain'], string | null>> = {
  kept: null,
  'may-go': 'stain may go',
  lost: 'stain goes',
};
const keeping: Readonly<Record<WayNote['keeping'], string | null>> = {
  same: null,
  better: 'keeps better',
  unknown: 'keeping not known',
};

export const ways = {
  title: 'Ways out, side by side',
  says: 'Each way for this negative and the aim above. There is no score: say what counts for you.',
  none: 'Choose a negative with a shadow and a highlight, and an aim, to compare the ways out.',
  order: 'Order by',
  orders: {
    'least-interference': 'least done to the negative',
    'nearest-to-aim': 'nearest to the aim',
    'highlight-separation': 'separation of the highlights',
    'shadow-separation': 'separation of the shadows',
    'least-grain': 'least grain in the print',
    'shortest-exposure': 'shortest printing exposure',
  } satisfies Record<WayOrder, string>,
  names,
  shadowAt: 'Shadow to separate, density',
  highlightAt: 'Highlight to separate, density',
  gross: 'base + fog included',
  net: 'above base + fog',
  developed: 'This negative was developed for',
  developedUnit: (celsius: number) => `min at ${trimmed(celsius)} °C`,
  chart: 'Printing range by each way',
  aim: (aim: string, range: number) => `aim: ${aim}, ${formatNumber(range, 2)}`,
  table: 'Ways out',
  way: 'way',
  range: 'printing range',
  grade: 'calls for',
  highlights: 'highlight separation',
  shadows: 'shadow separation',
  exposure: 'exposure, stops',
  grain: 'grain, negative / print',
  lost: 'what is lost',
  hazards: 'hazards',
  noHazard: 'no chemistry',
  paperName: ({ paper, paperGrade: grade, split }: WayOut): string => {
    const scale = formatNumber(paper.exposureScale, 2);
    if (paper.kind === 'strip') return `on your own strip, scale ${scale}`;
    if (paper.kind === 'setting') return `on your own strips, scale ${scale}`;
    if (split !== null) {
      const soft = formatNumber(100 * split.softTimeShare, 0);
      const which = split.origin === 'own' ? 'your own layers' : 'built-in layer model';
      return `on variable-contrast paper, ${soft} % of the time soft (${which})`;
    }
    return grade === null
      ? `on a generated paper, scale ${scale}`
      : `on a generated paper of grade ${grade}, scale ${scale}`;
  },
  detail: (way: WayOut): string => {
    const { id, minutes, taken, nextRoll, gain, limit, redevelopedPart } = way;
    const parts = [
      ...(minutes === 0 ? ['no bath is needed'] : []),
      ...(minutes !== null && minutes > 0 ? [`${formatMinutes(minutes)} in selenium`] : []),
      ...(redevelopedPart !== null && redevelopedPart < 1
        ? [`stopped when ${formatNumber(100 * redevelopedPart, 0)} % of the highlight is back`]
        : []),
      ...(taken !== null && taken > 0 ? [`takes ${formatNumber(taken, 2)} everywhere`] : []),
      ...(nextRoll === null ? [] : [nextRollText(nextRoll)]),
      ...(gain !== 1 && taken === null && id !== 'next-roll'
        ? [`gain ×${formatNumber(gain, 2)}`]
        : []),
      ...(limit === null ? [] : [limits[limit]]),
    ];
    return parts.join(', ');
  },
  loses: ({ id, process, reversible, stain, keeping: keeps }: WayNote): string => {
    if (id === 'next-roll') return 'this picture';
    const parts = [
      ...(reversible ? [] : [process === 'reducer' ? 'silver, for good' : 'the way back']),
      ...(stains[stain] === null ? [] : [stains[stain]]),
      ...(keeping[keeps] === null ? [] : [keeping[keeps]]),
    ];
    return parts.length === 0 ? 'nothing' : parts.join('; ');
  },
  assumptions:
    'Separation: print density for a small step of density in the negative as it is now, at the two densities above. Exposure: for the same highlight tone, papers of one speed; for the split exposure against the same paper without a filter, whose filters take one stop (soft) and two (hard). Grain: fluctuations of density grow with the local gain, in the print also with the paper’s gradient, both at the middle density; 1 is the first way. A generated paper is a logistic curve of the scale with 2.0 net density; a strip of your own is better. Two baths in turn, and two passes, are taken to multiply; of a part of redevelopment the thin densities are taken to come back first.',
  costs: 'What each way costs',
  cautions: 'Before you bleach or reduce',
  builtIn: 'Built-in numbers of these ways',
  chromiumGain: 'Chromium, gain of one pass',
  redevelopedPart: 'Redevelopment in part, where the aim asks for no other',
  superproportional: 'Superproportional reducer, exponent',
  leastShadow: 'Least shadow a reducer should leave',
  partOfLimit: 'Contrast of a usual development',
  layers: 'Variable-contrast paper',
  filters: 'Exposure through its filters',
  filterFactors: (soft: number, hard: number) =>
    `soft ×${trimmed(soft)}, hard ×${trimmed(hard)} the time without a filter.`,
  between: (low: number, high: number) =>
    `may well be ${formatNumber(low, 2)} to ${formatNumber(high, 2)}`,
};

function nextRollText({
  developmentChange,
  basis,
  fromMinutes,
  celsius,
  minutes,
  timeFactor,
  plausibleFactor,
}: NextRoll): string {
  const change = `N${formatSigned(developmentChange, 1)}`;
  if (timeFactor === null) return change;
  const now =
    fromMinutes === null
      ? ''
      : ` instead of ${formatMinutes(fromMinutes)} at ${trimmed(celsius)} °C`;
  if (basis === 'strips' && minutes !== null) {
    const error =
      minutes.standardError === null ? '' : ` ± ${formatNumber(minutes.standardError, 1)}`;
    return `${change}: ${formatNumber(minutes.value, 1)}${error} min${now}, by your own strips`;
  }
  const [low, high] = plausibleFactor ?? [timeFactor, null];
  const range =
    high === null
      ? `×${formatNumber(low, 2)} or more`
      : `×${formatNumber(low, 2)} to ×${formatNumber(high, 2)}`;
  const time =
    minutes === null
      ? `×${formatNumber(timeFactor, 2)} the time`
      : `about ${formatMinutes(minutes.value)}${now}`;
  return `${change}: ${time} (${range}), by rule: develop strips at two times to know`;
}
