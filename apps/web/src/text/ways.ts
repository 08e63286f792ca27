/** Words of the ways out. */
import { formatNumber, formatScale } from '@wedgebook/charts';
import type { WayOrder, WayOut } from '@wedgebook/core';
import { WAY_NAMES, wayDetail, wayHazards, wayLoses } from '@wedgebook/notebook';
import { trimmed } from './phrases.ts';

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
  names: WAY_NAMES,
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
  range: 'printing range, log₁₀',
  grade: 'calls for',
  highlights: 'highlight separation',
  shadows: 'shadow separation',
  exposure: 'exposure, stops',
  grain: 'grain, negative / print',
  lost: 'Lost',
  hazards: 'Hazards',
  paperName: ({ paper, paperGrade: grade, split }: WayOut): string => {
    const scale = formatScale(paper.exposureScale);
    if (paper.kind === 'strip') return `on your own strip, scale ${scale}`;
    if (paper.kind === 'setting') return `on your own strips, scale ${scale}`;
    if (split !== null) return `on variable-contrast paper, scale ${scale}`;
    return grade === null
      ? `on a generated paper, scale ${scale}`
      : `on a generated paper of grade ${grade}, scale ${scale}`;
  },
  detail: wayDetail,
  loses: wayLoses,
  hazardsOf: wayHazards,
  assumptions:
    'Separation: print density for a small step of density in the negative as it is now, at the two densities above. Exposure: for the same highlight tone, papers of one speed; for the split exposure against the same paper without a filter, whose filters take one stop (soft) and two (hard); of strips of your own under each filter nothing tells the light without one. Grain: fluctuations of density grow with the local gain, in the print also with the paper’s gradient, both at the middle density; 1 is the first way. A generated paper is a logistic curve of the scale with 2.0 net density; a strip of your own is better. Two baths in turn, and two passes, are taken to multiply; of a part of redevelopment the thin densities are taken to come back first.',
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
