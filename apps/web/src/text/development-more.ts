/** Words of the surface, the zone ladder, the control strips, and development beside the bath. */
import { formatMinutes, formatNumber, formatSigned } from '@wedgebook/charts';
import type {
  BathForGain,
  Commitment,
  DevelopmentSurface,
  DriftSignal,
  SurfaceFit,
} from '@wedgebook/core';
import type { DriftDirection, DriftMeasure } from '../state/derive-drift.ts';
import type { LadderPaper } from '../state/derive-zones.ts';
import { plural, trimmed } from './phrases.ts';

export const surface = {
  title: 'The curve at any time',
  says: 'All strips of the film are fitted together, so that a time nobody tested has a curve as well.',
  minutes: 'Development time',
  waiting: 'The surface is being reckoned…',
  failed: 'The surface could not be reckoned in this browser; the plan above stands without it.',
  reason: {
    'no-strips': 'The surface needs strips at two times: none has one yet.',
    'one-time-only': 'The surface needs strips at two times: all of them have one.',
    'contrast-does-not-rise':
      'Contrast does not rise with time, so there is no surface. Check which strip had which time.',
    'fit-failed': 'No surface follows these strips. Check them for slips of a step.',
  } satisfies Record<Extract<SurfaceFit, { status: 'not-determined' }>['reason'], string>,
  noCurve: (minutes: string) =>
    `There is no rising curve at ${minutes}: development has not begun.`,
  chart: (minutes: string) => `Curve predicted for ${minutes}`,
  predicted: (minutes: string) => `predicted, ${minutes}`,
  neighbour: (name: string) => name,
  figures: 'Figures of the predicted curve',
  baseFog: 'Base + fog',
  index: 'Exposure index',
  band: 'The band is that of the curve, 95 % at each exposure, widened by how well strips that were left out were predicted.',
  form: ({ law, hasShoulder, toe }: DevelopmentSurface) =>
    `In use: ${law === 'first-order' ? 'first-order law with delay' : 'straight line over log time'}, ${hasShoulder ? 'with a shoulder' : 'no shoulder'}, ${toe === 'shared' ? 'one toe shape for all times' : 'a toe whose width changes with time'}.`,
  leftOut: 'Each strip predicted from the others',
  leftOutSays: (error: number, scatter: number) =>
    `A strip that took no part is predicted to ± ${formatNumber(error, 3)} in density (root mean square); the readings themselves scatter by ${formatNumber(scatter, 3)}.`,
  leftOutNone:
    'With fewer than three times no strip can be left out, so the prediction is untried.',
  strip: 'strip',
  minutesShort: 'min',
  error: 'error (density)',
  remark: 'remark',
  extrapolated: 'beyond the others’ times',
  between: 'between the others’ times',
};

export const zones = {
  title: 'Zone ladder',
  says: (paper: LadderPaper | null): string =>
    paper === null
      ? 'Without a paper the ladder shows the densities of the negative.'
      : paper.origin === 'strip'
        ? `Each zone as “${paper.label}” prints it, by its own strip. The number is lightness L*, 100 for a perfect white.`
        : `Each zone as “${paper.label}” prints it: no strip of it was read, so a curve made for its exposure scale stands in. The number is lightness L*, 100 for a perfect white.`,
  how: 'Zone I stands at the shadow density of the plan and each zone a stop above; flare is added. Every print is exposed so that the highlight of the subject that its development is for comes just darker than white. Broken outline: beyond the exposures that were read.',
  red: 'Under red light no patch can be grey: bars as high as the lightness stand in, and the numbers hold.',
  chart: 'Zones in the print, for each development of the plan',
  detail: (clock: string, index: string | null) =>
    index === null ? clock : `${clock}, exposure index ${index}`,
  waiting: 'The ladder waits for the surface.',
  none: 'No development of the plan has a curve yet.',
  choose: 'Zones of',
  table: (development: string) => `Zones of ${development}`,
  zone: 'zone',
  logExposure: { absolute: 'log₁₀ lx·s', relative: 'log₁₀ exposure' },
  density: 'density',
  net: 'above base + fog',
  print: 'print density',
  lightness: 'L*',
  outside: 'not read there',
};

export const orBath = {
  title: (change: string) => `${change} by development or by the bath?`,
  says: 'More contrast from the next film, or from the negative that is there: the same step, reckoned both ways.',
  change: 'Step',
  development: 'longer development',
  bath: 'selenium bath',
  quantity: 'quantity',
  reached: 'contrast reached',
  ofAsked: (contrast: number, asked: number, reachable: boolean) =>
    reachable
      ? formatNumber(contrast, 2)
      : `${formatNumber(contrast, 2)} of ${formatNumber(asked, 2)}`,
  gain: 'gain over N',
  minutes: 'in the developer',
  inBath: 'in the bath',
  bathMinutes: (
    { minutes, reachable, mostGain }: BathForGain,
    { partsWater, celsius }: { readonly partsWater: number; readonly celsius: number },
  ): string => {
    const bath = `1+${trimmed(partsWater)}, ${trimmed(celsius)} °C`;
    return reachable
      ? `${formatMinutes(minutes)} at ${bath}`
      : `not reachable: at most ×${formatNumber(mostGain, 2)}, after ${formatMinutes(minutes)} at ${bath}`;
  },
  bathSure: ({ minutesError, reachable }: BathForGain, asked: number): string => {
    if (!reachable || minutesError === null) {
      return `×${formatNumber(asked, 2)} is asked for.`;
    }
    const [least, most] = minutesError.plausible;
    return most === null
      ? `It may well take from ${formatMinutes(least)} up, and may not get there at all.`
      : `It may well take between ${formatMinutes(least)} and ${formatMinutes(most)}.`;
  },
  index: 'exposure index',
  speed: 'speed against N',
  stops: (stops: number) => `${formatSigned(stops, 2)} stops`,
  graininess: 'graininess against N',
  times: (value: number, atLeast: boolean) =>
    `${atLeast ? 'at least ' : ''}×${formatNumber(value, 2)}`,
  worksOn: 'works on',
  worksOnWords: {
    'whole-film': 'the whole film',
    'single-frame': 'one frame at a time',
  } satisfies Record<Commitment['worksOn'], string>,
  decided: 'decided',
  decidedWords: {
    'before-exposure': 'before the exposure, which must be given for it',
    'after-printing': 'after a print has shown what is missing',
  } satisfies Record<Commitment['decided'], string>,
  undone: 'can be undone',
  undoneDevelopment: 'no: but no negative that exists is risked',
  undoneBath: 'no: the negative stays changed, and is at risk in the bath',
  hazard: 'hazards',
  hazardDevelopment: 'those of the developer you use anyway',
  hazardBath: 'selenium is poisonous: read its cautions first',
  caution: 'If you take the bath: before you open the bottle',
  atLeast:
    'Longer development makes new and larger grains, so its figure is the least it may be; the bath strengthens those that are there.',
  none: 'This needs a plan with N in reach.',
};

export const drift = {
  title: 'Control strips',
  says: 'The same wedge, exposed alike and developed alike time after time, shows whether the process holds.',
  how: 'Mark a strip as a control strip, and give the day it was developed, under the facts of the strip at Readings. Three set limits; five are better.',
  none: 'No control strip of this film yet.',
  undated: (count: number) =>
    `${plural(count, 'control strip')} without a day ${count === 1 ? 'has' : 'have'} no place in the order: give the day of development.`,
  unlike:
    'The control strips were not all developed for the same time and temperature, so that differences may be of your own making.',
  few: (count: number) =>
    `${plural(count, 'dated control strip')}: three at least set the limits. Develop ${3 - count} more.`,
  first: 'Limits are set by the first',
  firstUnit: 'control strips',
  chart: 'Control charts of the process',
  measures: {
    'speed-point': {
      absolute: 'speed point (log₁₀ lx·s)',
      relative: 'speed point (relative log₁₀)',
    },
    contrast: 'contrast',
    'base-fog': 'base + fog (density)',
  },
  names: {
    'speed-point': 'speed point',
    contrast: 'contrast',
    'base-fog': 'base + fog',
  } satisfies Record<DriftMeasure, string>,
  limits:
    'Limits are the mean of those strips and three standard deviations to either side, by their moving range; broken short lines mark two. Rings set the limits, diamonds signal.',
  signals: {
    'beyond-limits': 'beyond three sigma',
    'two-of-three': 'two of three beyond two sigma',
    'one-side': 'eight in a row on one side',
    trend: 'six in a row one way',
  } satisfies Record<DriftSignal, string>,
  steady: (strips: number) =>
    `No signal in ${plural(strips, 'strip')}: the process holds within its own scatter.`,
  signalled: (name: string, day: string, measure: string, deviations: number, how: string) =>
    `${name}, ${day}: ${measure} ${formatSigned(deviations, 1)} sigma, ${how}.`,
  direction: {
    more: 'The latest strip was developed more than the first ones: look for a warmer bath, a longer time, more agitation or a stronger mix, and check the thermometer.',
    less: 'The latest strip was developed less than the first ones: look for an exhausted or weaker developer, a colder bath or a shorter time, and check the thermometer.',
    fog: 'Base + fog alone has risen in the latest strip: look for old film, stray light or a contaminated bath.',
    speed:
      'The speed point alone has moved in the latest strip: look at the lamp and the time of the exposure before you blame the developer.',
    contrast:
      'Contrast has moved in the latest strip and the speed point against it: repeat the strip before you act.',
  } satisfies Record<DriftDirection, string>,
};
