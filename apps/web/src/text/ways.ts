/** Words of the ways out. */
import { formatNumber, formatSigned } from '@wedgebook/charts';
import type { PrintPaper, WayId, WayLimit, WayOrder, WayOut } from '@wedgebook/core';
import { trimmed } from './phrases.ts';

const names: Readonly<Record<WayId, string>> = {
  'print-to-fit': 'Print on the grade it calls for',
  'split-exposure': 'Split soft and hard exposure',
  selenium: 'Selenium bath',
  chromium: 'Chromium bleach, redevelop',
  'chromium-then-selenium': 'Chromium, then selenium',
  'reduce-proportional': 'Proportional reducer',
  'reduce-superproportional': 'Superproportional reducer',
  'reduce-surface': 'Surface reducer',
  'next-roll': 'Leave it; next roll otherwise',
};

const limits: Readonly<Record<WayLimit, string>> = {
  'falls-short': 'falls short of the aim',
  overshoots: 'goes past the aim',
  'range-unchanged': 'leaves the range as it is',
  'beyond-paper': 'more than variable-contrast paper serves',
  'shadow-lost': 'nothing to take without losing the shadow',
};

export const ways = {
  title: 'Ways out, side by side',
  says: 'Each way for this negative and the grade above. There is no score: say what counts for you.',
  none: 'Choose a negative with a shadow and a highlight to compare the ways out.',
  order: 'Order by',
  orders: {
    'least-interference': 'least done to the negative',
    'nearest-to-aim': 'nearest to the grade aimed at',
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
  chart: 'Printing range by each way',
  aim: (grade: number, range: number) => `aim: grade ${grade}, ${formatNumber(range, 2)}`,
  table: 'Ways out',
  way: 'way',
  range: 'printing range',
  grade: 'calls for',
  paper: 'reckoned on',
  highlights: 'highlight separation',
  shadows: 'shadow separation',
  exposure: 'exposure, stops',
  grain: 'grain, negative / print',
  paperName: (paper: PrintPaper, grade: number | null): string => {
    const scale = formatNumber(paper.exposureScale, 2);
    if (paper.kind === 'strip') return `your own strip, scale ${scale}`;
    return grade === null
      ? `generated paper, scale ${scale}`
      : `generated paper of grade ${grade}, scale ${scale}`;
  },
  detail: ({ id, minutes, taken, developmentChange, gain, limit }: WayOut): string => {
    const parts = [
      ...(id === 'selenium' && minutes === 0 ? ['no bath is needed'] : []),
      ...(minutes !== null && minutes > 0 ? [`${trimmed(minutes)} min in selenium`] : []),
      ...(taken !== null && taken > 0 ? [`takes ${formatNumber(taken, 2)} everywhere`] : []),
      ...(developmentChange === null || Math.abs(developmentChange) < 0.05
        ? []
        : [`N${formatSigned(developmentChange, 1)}`]),
      ...(gain !== 1 && taken === null ? [`gain ×${formatNumber(gain, 2)}`] : []),
      ...(limit === null ? [] : [limits[limit]]),
    ];
    return parts.join(', ');
  },
  assumptions:
    'Separation: print density for a small step of density in the negative as it is now, at the two densities above. Exposure: for the same highlight tone, papers of one speed. Grain: fluctuations of density grow with the local gain, in the print also with the paper’s gradient, both at the middle density; 1 is the first way. A generated paper is a logistic curve of the scale with 2.0 net density; a strip of your own is better. Two baths in turn are taken to multiply.',
  costs: 'What each way costs',
  cautions: 'Before you bleach or reduce',
  builtIn: 'Built-in numbers of these ways',
  chromiumGain: 'Chromium, gain of one pass',
  superproportional: 'Superproportional reducer, exponent',
  leastShadow: 'Least shadow a reducer should leave',
  between: (low: number, high: number) =>
    `may well be ${formatNumber(low, 2)} to ${formatNumber(high, 2)}`,
};
