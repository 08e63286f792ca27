/** Words of the development station: contrast against time, the plan, what to test next. */
import { formatClock, formatNumber, formatSigned } from '@wedgebook/charts';
import {
  chordOf,
  type ContrastModel,
  type Estimate,
  type NextDevelopment,
  type WarningCode,
} from '@wedgebook/core';
import type { DevelopmentMeasure } from '@wedgebook/notebook';
import type { Aim, DevelopmentView, LeftOut, PlanFigure } from '../state/derive-development.ts';
import { plural, trimmed } from './phrases.ts';

const FAMILIES: Readonly<Record<ContrastModel['family'], string>> = {
  'first-order': 'first-order law with delay',
  'log-linear': 'straight line over log time',
};

const FIGURES: Readonly<Record<PlanFigure | 'measure', string>> = {
  measure: 'the measure of contrast',
  target: 'the contrast aimed at',
  celsius: 'the temperature',
  subjectRangeStops: 'the range of the subject',
  flareFactor: 'the flare factor',
  speedNetDensity: 'the shadow density',
  temperatureCoefficient: 'the factor for 10 °C',
  limitStrips: 'the count of strips that set limits',
  chosenMinutes: 'the development time',
};

export const development = {
  film: 'Film',
  replaced: (names: readonly (PlanFigure | 'measure')[]) =>
    `The notebook holds figures that cannot be, so the usual ones are in use: ${names.map((name) => FIGURES[name]).join(', ')}. Type them anew.`,
  noFilm: 'strips without a film',
  measure: 'Contrast by',
  says: ({ laws: { fit, model }, timed }: DevelopmentView): string => {
    if (model !== null) {
      const from = plural(timed.length, 'strip');
      return {
        fitted: `${FAMILIES[model.family]}, from ${from}`,
        'two-times': `two times only: ${FAMILIES[model.family]} with an assumed delay`,
        'scaled-guess': 'one time only: a guess',
      }[model.basis];
    }
    return fit.status === 'not-determined' && fit.reason !== 'no-strips'
      ? 'no law: contrast does not rise with time'
      : 'no strip with a development time yet';
  },
  empty: {
    title: 'What is missing',
    steps: [
      'Expose three wedges alike on one film, and develop them for different times, such as 5, 8 and 12 min. Two give an answer with an assumed delay, one a guess.',
      'Enter each as a film strip of its own under Readings, with at least four steps.',
      'Open the facts of each strip there, choose the same film, and give its minutes and temperature.',
    ],
  },
  chart: 'Contrast against development time',
  families: FAMILIES,
  law: (model: ContrastModel): string => {
    const { family, contrastInfinity, rate, delayMinutes, basis } = model;
    if (basis === 'scaled-guess') {
      return 'One strip tells one contrast. The law shown takes it as half of what the film can do, which is a guess and nothing more: no error can be given.';
    }
    const delay = `${withError(delayMinutes, 2)} min`;
    return family === 'first-order' && contrastInfinity !== null
      ? `Contrast tends to ${withError(contrastInfinity, 2)} at a rate of ${withError(rate, 3)} per minute, and begins after ${delay}${basis === 'two-times' ? ', which is assumed' : ''}.`
      : `Contrast rises by ${withError(rate, 3)} for each unit of the natural logarithm of time, from zero at ${delay}.`;
  },
  timing: ({ timingDeviation: part }: ContrastModel): string =>
    part > 0
      ? `The errors of law, plan and exposure indexes count ${formatNumber(100 * part, 1)} % of the time for clock, thermometer and agitation, which is assumed; those in the table of strips are of the readings alone.`
      : '',
  rival: (model: ContrastModel, rival: ContrastModel): string => {
    const name = FAMILIES[rival.family];
    const weight = model.rivals[0]?.weight ?? null;
    if (weight === null) {
      return model.reason === 'better'
        ? `The ${name} (broken) describes the strips markedly worse.`
        : `The ${name} (broken) is drawn for comparison; the strips do not speak for it.`;
    }
    return `The ${name} (broken) is hardly told from it (weight ${formatNumber(100 * weight, 0)} %), and its difference widens every error below.`;
  },
  temperature: ({ temperatureCoefficient: q }: ContrastModel): string =>
    q.origin === 'fitted'
      ? `Ten degrees more develop ${withError(q, 2)} times as fast, by your strips.`
      : `Ten degrees more are taken to develop ${formatNumber(q.value, 2)} times as fast.`,
  stripsTable: 'Strips of the film',
  strip: 'strip',
  minutes: 'min',
  celsius: '°C',
  exposureIndex: 'exposure index',
  remark: 'remark',
  leftOut: {
    'no-time': 'left out: no development time',
    temperature: 'left out: temperature outside 0 to 60 °C',
    'no-curve': 'left out: no curve',
    'not-measured': 'left out: its readings do not reach this measure',
    control: 'control strip',
  } satisfies Record<LeftOut, string>,
  noSpeed: 'Exposure indexes need strips whose exposure is absolute, in lux-seconds.',
  treated: (count: number) =>
    `${plural(count, 'strip')} of this film went through a bath and ${count === 1 ? 'takes' : 'take'} no part.`,
  control: (count: number) =>
    `${plural(count, 'control strip')} of this film ${count === 1 ? 'is' : 'are'} watched below and ${count === 1 ? 'takes' : 'take'} no part.`,
  index: (arithmetic: number, degrees: number) => `${trimmed(arithmetic)}/${degrees}°`,

  plan: {
    title: 'Development times',
    target: 'Contrast of normal development',
    fromPaper: 'from the paper',
    own: 'a figure of my own',
    ownTarget: 'My contrast',
    subject: 'Subject, shadow to highlight',
    flare: 'Camera flare factor',
    flareHint:
      'Luminance ratio of the subject over that of its image: 1 without flare, 2 for one stop.',
    celsius: 'Developer',
    coefficient: 'Factor for 10 °C',
    coefficientUnit: '×, empty: fitted or built in',
    netDensity: 'Zone I stands at net',
    aim: ({ contrast, origin, scene, paper }: Aim, measure: DevelopmentMeasure): string => {
      const own = `Normal development aims at ${contrastIn(measure, contrast, 3)}`;
      if (scene === null) return `${own}.`;
      const paperAsks = `the paper “${paper?.label ?? ''}”: a density range of ${formatNumber(scene.densityRange, 2)} from ${formatNumber(scene.imageStops, 1)} stops of image, which is an average gradient of ${formatNumber(scene.contrast, 3)}`;
      return origin === 'paper'
        ? `${own}, asked for by ${paperAsks}.`
        : `${own}, your own figure. For comparison, ${paperAsks}.`;
    },
    aimHint: (measure: DevelopmentMeasure): string =>
      measure === 'gamma'
        ? 'Gamma is the greatest slope, so that a plan by it comes out softer than the image asks for; the zone ladder shows by how much.'
        : `The gradient over the whole image is asked of the ${measure === 'contrast-index' ? 'contrast index, which comes close to it' : 'chord'}; the zone ladder shows what really comes of it.`,
    noAim:
      'No contrast to aim at: choose a paper under Match, or give a figure of your own. Flare must leave at least 3.5 stops of image.',
    usualAim: (value: number) => `Usual: ${formatNumber(value, 2)}.`,
    table: 'The plan',
    development: 'development',
    subjectStops: 'subject',
    contrast: 'contrast',
    time: 'time',
    interval: 'may lie between',
    speed: 'speed against N',
    stops: (stops: number) => `${formatNumber(stops, 1)} stops`,
    speedStops: (stops: number) => `${formatSigned(stops, 1)} stops`,
    outOfReach: 'out of reach',
    notes: {
      'near-contrast-limit': 'near the limit',
      'short-development': 'under 5 min',
      'time-extrapolated': 'not tested there',
    } satisfies Partial<Record<WarningCode, string>> as Partial<Record<WarningCode, string>>,
    intervalHint:
      'Times to the nearest five seconds; the interval is that of 95 % and includes the choice between the two laws. The exposure index is that of the very time, by the shadow density above, as a meter dial has it; it is no ISO speed.',
    noInterval: 'A guess has no interval.',
  },

  sink: {
    title: 'For the wall above the sink',
    says: 'Times by the temperature of the developer, for printing.',
    print: 'Print this table',
    by: (measure: DevelopmentMeasure, contrast: number) =>
      `N aims at ${contrastIn(measure, contrast, 2)}`,
    at: (celsius: number) => `${trimmed(celsius)} °C`,
    coefficient: (value: number) => `factor ${formatNumber(value, 2)} for 10 °C`,
    rounded: 'times to the nearest five seconds',
    short: (minutes: number) => `*\u00a0under ${trimmed(minutes)}\u00a0min: may come out uneven`,
    untried: '†\u00a0near the film’s limit or outside the times tested: try it first',
    guess: 'a guess from one strip',
    invented: 'invented readings',
  },

  next: {
    title: 'What to test next',
    says: ({ errorNow, trials }: NextDevelopment): string => {
      const [best] = trials;
      if (best === undefined) return '';
      const part = errorNow > 0 ? 1 - best.errorAfter / errorNow : 0;
      const now = `${formatNumber(60 * errorNow, 0)} s`;
      const after = `${formatNumber(60 * best.errorAfter, 0)} s`;
      return part < 0.1
        ? `One more strip would hardly narrow the plan: its times are known to ${now} on average, and ${formatClock(best.minutes)} would bring that to ${after}.`
        : `Develop the next strip for ${formatClock(best.minutes, 15)}: the standard error of the plan’s times, on average, would fall from ${now} to ${after}, ${formatNumber(100 * part, 0)} % less.`;
    },
    guess: (minutes: number) =>
      `Develop a second strip for about ${formatClock(minutes, 30)}: it turns the guess into an answer.`,
    none: 'Strips at two or more times come first.',
    table: 'Times by what they would tell',
    expected: 'contrast expected',
    errorAfter: 'error after (s)',
    hint: 'Root mean square over the reachable rows of the plan, for a strip that tells its contrast to ± 0.015, at times from a little under the shortest of the plan to a quarter over the longest.',
  },
};

/** A measure of contrast in words, end points and all. */
export function measureName(measure: DevelopmentMeasure): string {
  if (measure === 'contrast-index') return 'contrast index';
  if (measure === 'gamma') return 'gamma, the greatest slope';
  const chord = chordOf(measure);
  if (chord === null) return measure;
  const from = `average gradient, net ${formatNumber(chord.fromNet, 2)} to`;
  return chord.kind === 'over'
    ? `${from} +${formatNumber(chord.length, 2)}`
    : `${from} net ${formatNumber(chord.toNet, 2)}`;
}

/** A contrast with what it is measured by, such as `a contrast index of 0.58`. */
function contrastIn(measure: DevelopmentMeasure, contrast: number, decimals: number): string {
  const [name, ...ends] = measureName(measure).split(', ');
  const article = name?.startsWith('a') === true ? 'an' : 'a';
  return [`${article} ${name} of ${formatNumber(contrast, decimals)}`, ...ends].join(', ');
}

/** `N-1` with a true minus sign. */
export function named(development: string): string {
  return development.replace('-', '−');
}

function withError({ value, standardError }: Estimate, decimals: number): string {
  const text = formatNumber(value, decimals);
  return standardError === null
    ? text
    : `${text}\u00a0±\u00a0${formatNumber(standardError, decimals)}`;
}
