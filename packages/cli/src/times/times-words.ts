/** Every word of `times`. */
import { chordOf, type ContrastMeasure } from '@wedgebook/core';

/** A measure of contrast in words. */
export function measureWords(measure: ContrastMeasure): string {
  if (measure === 'contrast-index') return 'contrast index';
  if (measure === 'gamma') return 'gamma';
  const chord = chordOf(measure);
  if (chord === null) return measure;
  const from = `average gradient from net ${chord.fromNet.toFixed(2)}`;
  return chord.kind === 'over'
    ? `${from} over +${chord.length.toFixed(2)}`
    : `${from} to net ${chord.toNet.toFixed(2)}`;
}

/** Headings and phrases of `times`. */
export const TIMES_WORDS = {
  title: 'Contrast against development time',
  family: 'family',
  families: {
    'first-order': 'c = c_inf (1 - exp(-k (t - t0)))',
    'log-linear': 'c = a + s ln t',
  },
  contrastInfinity: ['limit', 'contrast that the film tends to'],
  rate: {
    'first-order': ['rate', 'k per minute'],
    'log-linear': ['slope', 'contrast by ln t'],
  },
  delay: ['delay', 'minutes before contrast begins'],
  coefficient: ['temperature coefficient', 'factor of speed for 10 °C'],
  fitted: 'fitted',
  given: 'yours',
  builtIn: (mark: string) => `built-in (${mark})`,
  strips: 'Strips',
  stripColumns: ['strip', 'min:s', '°C', 'contrast', 'exposure index ± stops', 'left out'],
  scatter: (error: string, percent: string) =>
    `  left out: density error when predicted from the other strips, ${error} in all; whole strips scatter by ${percent} % of their time`,
  timing: (percent: string) =>
    `errors in this table are of the readings alone; those of law and plan also count ${percent} % of the time for clock, thermometer and agitation (assumed)`,
  controls: (count: number) =>
    `  ${count} control ${count === 1 ? 'strip takes' : 'strips take'} no part; --drift shows ${count === 1 ? 'it' : 'them'}`,
  plan: (celsius: number) => `Plan at ${celsius} °C`,
  rowAt: (development: string, celsius: number) => `${development} at ${celsius} °C`,
  planColumns: ['', 'contrast', 'min:s', '95 %', 'exposure index ± stops', 'speed, stops'],
  interval: (from: string, to: string) => `${from} to ${to}`,
  outOfReach: 'out of reach',
  target: (value: string, source: string) => `N is ${value}: ${source}`,
  yourTarget: 'as asked',
  fromPaper: (scale: string, name: string | null, stops: number) =>
    `a subject of ${stops} stops on ${name === null ? 'a paper' : `“${name}”`} of exposure scale ${scale} log10`,
  atMinutes: (minutes: number, celsius: number) => `what ${minutes} min at ${celsius} °C give`,
  flare: (stops: string, source: string) =>
    `Camera flare shortens the subject by ${stops} stops: ${source}`,
  noFlare: 'none reckoned with',
  nextTest: (minutes: string, now: string, after: string) =>
    `Test next: a strip at ${minutes}; it would bring the error of the planned times from ${now} to ${after} s`,
  bathTitle: (development: string) => `${development} by development, or N and a bath`,
  bathColumns: [
    '',
    'contrast',
    'reached',
    'min:s',
    'exposure index ± stops',
    'speed, stops',
    'grain',
    'works on',
  ],
  bathRow: 'N + bath',
  inBath: (bath: string, minutes: string, interval: string) =>
    `  in selenium ${bath}: ${minutes}, ${interval}`,
  inBathBetween: (low: string, high: string) => `may well lie between ${low} and ${high}`,
  inBathFrom: (low: string) => `may well lie from ${low} up, and the bath may not get there`,
  notInBath: (bath: string, asked: string, most: string, minutes: string) =>
    `  in selenium ${bath}: not reachable, ×${asked} is asked for; the most is ×${most} in ${minutes}`,
  ownBath: '  no minutes: of a bath known by its gain alone nothing tells how fast it works',
  bathNote:
    '  grain: fluctuation of density against N, taken to grow as the contrast does; neither way can be undone',
  yes: 'yes',
  no: 'no',
  atLeast: '≥ ',
  worksOn: { 'whole-film': 'the whole film', 'single-frame': 'one frame, after a print' },
  zonesTitle: (development: string, minutes: string) => `Zones at ${development}, ${minutes}`,
  zoneColumns: ['zone', 'density', 'net', 'print density', 'L*'],
  outside: ' (outside the readings)',
  driftMeasures: {
    speedPoint: ['Drift of the speed point, log exposure', 3],
    contrast: ['Drift of contrast', 3],
    baseFog: ['Drift of base + fog', 3],
  },
  driftColumns: ['strip', 'day', 'value', 'sigmas', ''],
  limits: (centre: string, low: string, high: string) =>
    `centre ${centre}, limits ${low} and ${high}`,
  setsLimits: 'sets the limits',
  signals: {
    'beyond-limits': 'beyond the limits',
    'two-of-three': 'two of three near a limit',
    'one-side': 'eight on one side',
    trend: 'six in one direction',
  },
  noDrift: (name: string, reason: 'too-few-strips' | 'no-scatter') =>
    `${name}: ${reason === 'too-few-strips' ? 'three strips are needed' : 'all strips are alike'}`,
} as const;
