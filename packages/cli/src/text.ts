/**
 * Every word that the command prints of its own. Sentences of warnings and of faults in a file
 * belong to @wedgebook/notebook, which the app shares.
 */
import { FEWEST_FOR_SLIPS } from '@wedgebook/core';
import { remedyForUnit, remedyForWords } from '@wedgebook/notebook';

export const WORDS = {
  warning: '!',
  caution: '!!',
  none: '-',
  unverified: 'unverified',
  verified: 'verified',
} as const;

/** A remedy after the fault, where one is known. */
const then = (remedy: string | null): string => (remedy === null ? '' : `; ${remedy}`);
const list = (names: readonly string[]) => names.join(', ');

/** What is wrong with a call. */
export const USAGE = {
  /** Of the parser's message, which may have several lines, what is wrong. */
  parse: (message: string) => {
    const [, name] =
      /^Option '([^'<]+?)(?: <\w+>)?' argument (?:missing|is ambiguous)/.exec(message) ?? [];
    if (name !== undefined) return USAGE.needsValue(name);
    const [first = message] = message.split(/\.?\s*\n|\. /);
    return first.replace(/\.$/, '');
  },
  unknownOption: (written: string, nearest: string | null) =>
    `there is no option ${written} here${nearest === null ? '' : `; --${nearest} was probably meant`}`,
  verbFirst: (option: string) => `the verb comes first, ${option} after it`,
  needsValue: (name: string) => `${name} needs a value`,
  emptyName: 'a FILE has an empty name',
  givenTwice: (name: string) => `${name} is given twice`,
  noVerb: 'no verb was given',
  measure: (written: string) =>
    `--measure ${written} is not known; there are contrast-index, gamma, gradient-L (over L log exposure from net 0.10, L from 0.30 to 3), gradient-L-from-N and gradient-net-A-to-B, such as gradient-1.30 or gradient-net-0.10-to-1.20`,
  normalOrTarget: 'give either --target C or --normal MINUTES',
  flareSwallows: '--flare leaves fewer than three stops of the subject',
  severalFilms: (films: readonly string[]) =>
    `the file holds strips of several films; choose one with --film: ${list(films)}`,
  noSuchFilm: (name: string, films: readonly string[]) =>
    films.length === 0
      ? '--film is for notebooks: this file does not name its films'
      : `--film ${name} is not there; there are ${list(films)}`,
  unknownVerb: (verb: string, verbs: readonly string[]) =>
    `"${verb}" is no verb; there are ${list(verbs)}`,
  bothOf: (what: string) => `give both --from-${what} and --to-${what}`,
  notWhole: (name: string) => `--${name} takes a whole number`,
  flashAndScale: 'give both --flash F and --scale S',
  spotsNeeded: '--paper needs both --shadow D and --highlight D, densities of the negative',
  burnNeedsSplit:
    '--burn-soft and --burn-hard need strips with soft_seconds and hard_seconds in the file of --paper',
  filmNeedsSpots: '--film needs both --shadow D and --highlight D, densities of the negative',
  needsFilm: (name: string) => `--${name} needs --film FILE, strips of the film`,
  needsMinutes: (name: string) => `--${name} needs --minutes M, the time in the bath`,
  onePaperOnly: 'give one of --paper, --grade and --paper-scale',
  gradeUnknown: (grade: number, grades: readonly number[]) =>
    `--grade ${grade} is outside the table, which goes from ${Math.min(...grades)} to ${Math.max(...grades)}`,
  whichFilmStrip: (name: string | null, strips: readonly string[]) =>
    name === null
      ? `the file of --film holds several strips; choose one with --film-strip: ${list(strips)}`
      : `--film-strip ${name} is not there; there are ${list(strips)}`,
  needsPaper: (name: string) => `--${name} needs --paper FILE, strips of the paper`,
  noMap: 'no strip of the file gives an exposure scale, so that there is no map of settings',
  oddPatches:
    '--test-strip takes an odd number with --paper, so that the expected time is in the middle',
  settingOutside: (setting: string, settings: readonly string[]) =>
    `--setting ${setting} lies outside the strips, which have ${list(settings)}; the column "setting" names them`,
  middle: (written: string) =>
    `--middle ${written} is not clear; write the densities of negative and print, such as 0.75:0.80`,
  areas: (written: string, lights: readonly string[]) =>
    `--areas ${written} is not clear; write area:light:stops such as sky:hard:1/2, with the light ${lights.length === 0 ? 'of an exposure whose seconds are known' : list(lights)}`,
  outside: (name: string, written: string, lowest: number, highest: number) =>
    `--${name} ${written} is outside ${lowest} to ${highest}${then(remedyForUnit(name, Number(written)))}`,
  notAChoice: (name: string, written: string, choices: readonly string[]) =>
    `--${name} ${written} is not known; there are ${list(choices)}`,
  notANumber: (name: string, written: string) =>
    `--${name} takes a number such as 1.25, not "${written}"${then(remedyForWords(name, written))}`,
  oneFile: 'one FILE is needed; - reads standard input',
  someFile: 'at least one FILE or directory is needed; - reads standard input',
  keepGoingAlone:
    '--keep-going needs --jsonl or --csv, which show each strip as soon as it is read',
  oneOutput: 'only one of --json, --jsonl and --csv can be given',
  noComparison: '--compare has no columns; use --json or --jsonl',
  callierErrorAlone: '--callier-error is the standard error of --callier; give both',
  stainKeptAlone: '--stain-kept is the share that the bath leaves of --stain; give both',
  noFile: (written: string, options: readonly string[]) =>
    `"${written}" stands alone: this verb takes no FILE; strips are given by ${options.join(' or ')}`,
  oneFileAtMost: 'at most one FILE can be given',
  needs: (name: string, hint: string) => `--${name} is needed: ${hint}`,
  stdinTwice: 'standard input can be read only once',
  absoluteWithoutSource:
    '--log-exposure absolute has no meaning for tablet densities alone; add --source-log-exposure X, log10 of the lux-seconds without the tablet',
  rangeOrSpots: 'give either --range DR, or both --shadow D and --highlight D',
  rangeNeeded:
    'the negative is needed: --range DR, or --shadow D and --highlight D (densities, the highlight being the denser)',
  targetNeeded:
    'what is wanted? --to-grade G, --to-scale S, --to-range R or --paper FILE plans; --minutes M predicts',
  targetsClash:
    'only one of --to-grade, --to-scale, --to-range, --paper and --minutes can be given',
  onlyWithWays: (name: string) => `--${name} has a meaning with --ways only`,
  waysNeedTarget:
    '--ways compares ways to a target: give --to-grade, --to-scale, --to-range or --paper',
  clearAbove: '--clear-base cannot be denser than --base-fog, and needs it',
  planOrFile: 'give FILE with treated strips, or a negative (--range …) and a dilution, or both',
  onePaper: (papers: number) =>
    papers === 0
      ? 'the file of --paper gives no exposure scale; see it with the verb paper'
      : 'the file of --paper holds several strips; leave one in it',
  scaleOrPaper: 'give either --scale or --paper',
  paperStrip: (wanted: string | null, names: readonly string[]) =>
    names.length === 0
      ? 'the file of --paper gives no exposure scale; see it with the verb paper'
      : wanted === null
        ? `the file of --paper holds several strips: name one with --paper-strip (${list(names)})`
        : `--paper-strip ${wanted} is not there; there are ${list(names)}`,
  noLights:
    'the file of --split-paper tells no paper under soft and hard light: its strips need soft_seconds and hard_seconds',
  dilution: (written: string) =>
    `--dilution ${written} is not clear; write 1+n, such as 1+3 for one part of concentrate and three of water`,
  gradeOutside: (grade: number, grades: readonly number[]) =>
    `--to-grade ${grade} is not in the table, which has the grades ${list(grades.map(String))}`,
  sameRange: 'the shadow and the highlight have the same density',
  startLength: (given: number, needed: number, names: readonly string[]) =>
    `--start has ${given} values, the model needs ${needed}: ${list(names)}`,
  startOutside: (names: readonly string[]) =>
    `--start (${list(names)}) lies outside the bounds of the model or where it has no value; leave it out to start from the readings`,
  predictOutside: (x: number, model: string) =>
    `--predict ${x} lies outside the domain of ${model}, or its value is too great to state`,
  outputNeeded: '-o chart.svg is needed, or -o - for standard output',
  decimalCommas: '--decimal-comma needs --separator semicolon or tab',
  notThisFile: 'the output cannot be the input',
  unknownColumn: 'give --x COLUMN and --y COLUMN by the names in the header',
} as const;

/** Names of the measures, with the definitions that they follow. */
export const MEASURES = {
  curve: 'curve',
  scatter: (value: string, freedom: number) =>
    `scatter of a reading ${value} on ${freedom} ${freedom === 1 ? 'degree' : 'degrees'} of freedom`,
  through: 'drawn through every reading, no error',
  noSlips: ['slips of reading', 'not looked for'],
  whyNoSlips: {
    'too-few-readings': `from ${FEWEST_FOR_SLIPS} readings on, unexposed ones counted`,
    'drawn-curve': 'a curve through every reading leaves nothing to judge one by',
  },
  points: (points: number, readings: number, unexposed: number) =>
    `${points} steps, ${readings} readings${unexposed > 0 ? `, ${unexposed} unexposed` : ''}`,
  baseFog: ['base + fog', 'density of the unexposed film'],
  densityMax: ['greatest density', 'on the curve at the greatest exposure read'],
  gamma: ['gamma', 'greatest sustained slope of the curve'],
  inertia: ['inertia', 'where that slope meets base + fog'],
  speedPoint: ['speed point', 'where net density is 0.10'],
  isoTriangle: ['ISO 6 contrast', 'density rise from the speed point over +1.30'],
  met: (met: boolean) => (met ? 'met: 0.80 within the tolerance' : 'not met: 0.80 is asked for'),
  speed: {
    iso: 'ISO speed',
    'exposure-index': 'exposure index',
  },
  speedDefinition: {
    iso: 'ISO 6: 0.8 / exposure at the speed point, rounded through degrees',
    'exposure-index':
      '0.8 / exposure at the speed point; no ISO speed, the contrast condition is not met',
  },
  noSpeed: 'no speed: the exposure is relative',
  fractionalGradient: [
    'fractional-gradient speed',
    'delta-X method, coefficients from memory, unverified',
  ],
  hurterDriffieldSpeed: ['H&D speed', '34 / inertia, historic'],
  contrastIndex: [
    'contrast index',
    'line through points 0.2 and 2.2 from its centre on base + fog',
  ],
  averageGradient: [
    'average gradient',
    (from: string, to: string) => `chord from ${from} over ${to}`,
  ],
  usefulRange: 'useful range',
  usefulFromTo: (from: string, to: string, atLeast: boolean) =>
    `log10, log exposure ${from} to ${to}${atLeast ? ', at least: the readings end there' : ''}`,
  logExposure: { absolute: 'log10 lux-seconds', relative: 'relative log exposure' },
  densityMin: ['paper white', 'least density of the curve'],
  paperMax: ['greatest density'],
  paperMaxBasis: {
    asymptote: 'level that the curve tends to',
    'highest-reading': 'on the curve at the greatest exposure read',
  },
  threshold: ['threshold', 'where net density is 0.04'],
  shadowPoint: {
    net: ['shadow point', '90 % of the net maximum (ISO 6846, net form from memory)'],
    gross: ['shadow point', '90 % of the gross maximum (ISO 6846)'],
  },
  paperSpeedPoint: ['speed point', 'where net density is 0.60'],
  exposureScale: ['exposure scale', 'log10, from threshold to shadow point'],
  isoRange: ['ISO range', 'R = 100 times the exposure scale; rounded to the nearest 10'],
  isoSpeed: ['ISO paper speed', 'P = 1000 / exposure at the speed point; rounding from memory'],
  paperGradient: ['average gradient', 'chord from threshold to shadow point'],
  greatestGradient: ['greatest gradient', 'steepest slope of the curve'],
  paperGrade: 'paper grade',
  continuous: (value: string) => `${value} on a continuous scale`,
  outside: {
    softer: 'softer than any grade of the table',
    harder: 'harder than any grade of the table',
  },
  densityRange: ['density range', 'highlight less shadow, diffuse density'],
  printingRange: [
    'printing range',
    (factor: string) => `log10, as the paper sees it, Callier factor ${factor}`,
  ],
  scaleWanted: ['exposure scale wanted', 'log10, equal to the printing range'],
  rangeWanted: ['ISO range wanted', 'R = 100 times the printing range'],
  paperOf: (name: string) => `paper ${name}`,
  verdict: {
    fits: 'fits this paper (within 0.05 log10)',
    'falls-short': 'falls short of this paper: prints flat',
    overshoots: 'overshoots this paper: prints harsh',
  },
  verdictShort: {
    fits: 'fit',
    'falls-short': 'fall short',
    overshoots: 'overshoot',
  },
  mayAlso: (verdicts: readonly string[]) =>
    `within its error (95 %) it may also ${verdicts.join(' or ')}`,
  gradesWithin: 'grades within the error of the range (95 %)',
  fromTo: (from: string, to: string) => `${from} to ${to}`,
  difference: (stops: string) => `log10, printing range less exposure scale; ${stops} stops`,
} as const;

/** The families of curves side by side. */
export const COMPARISON = {
  columns: ['family', 'parameters', 'scatter', 'AICc above least', 'weight'],
  verdict: {
    best: (chosen: string) => `${chosen}: no other family describes the readings better`,
    'as-good': (chosen: string, best: string) =>
      `${chosen}: ${best} is lower by less than 2, which means nothing`,
    'rival-better': (chosen: string, best: string) =>
      `${chosen}: ${best} describes the readings better; ask for it with --model ${best}`,
    'not-comparable': (chosen: string) => `${chosen}: has no errors to compare by`,
  },
} as const;

/** One line for each strip. */
export const FILM_COLUMNS = [
  'strip',
  'minutes',
  'steps',
  'base + fog',
  'gamma',
  'contrast index',
  'gradient +1.30',
  'speed or index',
] as const;

/** Headings and phrases of the treatment tables. */
export const TREATMENT = {
  model: 'Treatment',
  origin: {
    fitted: 'fitted to your strips',
    default: 'built-in values',
  },
  law: 'gain law',
  exponent: 'exponent',
  response: 'dose and response',
  maximumGain: ['greatest gain', 'what net densities are multiplied by when the bath is complete'],
  halfDose: ['half dose', 'minutes in undiluted concentrate at 20 °C for half of the change'],
  steepness: ['steepness', 'of the response to dose'],
  concentrationExponent: ['concentration exponent', 'n in dose = c^n t'],
  temperatureCoefficient: ['temperature coefficient', 'factor of speed for 10 °C'],
  completion: (parts: number, celsius: number): [string, string] => [
    '95 % complete',
    `minutes at 1+${parts}, ${celsius} °C`,
  ],
  reason: {
    default: 'the plainest law, no trials',
    plainest: 'the plainest law describes your strips as well as any',
    better: 'describes your strips markedly better than the plainest law',
    'too-few': 'too few pairs to tell laws apart',
    'asked-for': 'as asked',
  },
  plausible: (low: string, high: string) =>
    `density range after may well lie between ${low} and ${high}, given what is known of the bath`,
  callier: (factor: string) => `Callier factor ${factor}: yours`,
  callierBuiltIn: (factor: string, light: string) => `Callier factor ${factor}: built-in, ${light}`,
  gradesWithin: 'within its error (95 %)',
  sources: 'Where the built-in values come from',
  builtInSource: (name: string, source: string, mark: string) => `${name}: ${source} (${mark})`,
  fromTrials: 'fitted',
  fromDefaults: 'built-in',
  held: 'held by you',
  shadowBelowFog: (shadow: string, fog: string) =>
    `The shadow, ${shadow}, is thinner than base + fog, ${fog}: its net density was taken as 0. Check both.`,
  treated: 'Treated strips',
  columns: ['strip', 'dilution', 'minutes', '°C', 'pairs', 'gain'],
  plan: 'Plan',
  prediction: 'Prediction',
  reachable: (yes: boolean) => (yes ? 'can be reached' : 'cannot be reached with this bath'),
  aim: {
    'band-middle': 'aims at the middle of the grade',
    'in-band': 'aims into the grade as far as the bath goes',
    range: 'aims at the range that was asked for',
    'already-there': 'the negative is there already: no bath',
    'most-reachable': 'shows the most that this bath gives',
    predicted: 'as asked',
  },
  bath: 'bath',
  minutes: 'time',
  gain: ['gain needed', "of the silver at the law's reference density"],
  gainGot: ['gain', "of the silver at the law's reference density"],
  complete: (percent: string) => `${percent} % of the whole change`,
  columnsBeforeAfter: ['', 'before', 'after'],
  cautions: 'Before you open the bottle',
  source: (text: string, mark: string) => `source: ${text} (${mark})`,
} as const;

export const FIT_WORDS = {
  title: (model: string, rows: number) => `${model}, fitted to ${rows} rows`,
  columns: ['parameter', 'value', 'standard error'],
  residual: 'residual standard deviation',
  freedom: 'degrees of freedom',
  sum: 'residual sum of squares',
  covariance: 'covariance',
  predictions: ['x', 'y', 'standard error', '95 % from', 'to'],
  robust: 'Huber loss, scale from the median absolute deviation',
  atBound: 'at its bound',
} as const;

export const PRINT_WORDS = {
  first: 'time now',
  change: {
    density: 'other density',
    magnification: 'other size',
    aperture: 'other aperture',
    stops: 'stops',
    'dry-down': 'dry-down',
  },
  stops: (stops: string) => `${stops} stops in all`,
  burn: ['burn in', 'on top of the whole exposure'],
  dodge: ['hold back', 'out of the whole exposure'],
  flash: ['exposure scale', 'log10, of the paper with the pre-flash'],
  stripColumns: ['patch', 'seconds in all', 'seconds to add'],
  wanted: ['wanted on the print', 'densities of highlight and shadow'],
  range: ['printing range', 'log10, of the negative, as the paper sees it'],
  exact: ['setting', 'that prints both as wanted; in brackets 95 %'],
  scale: ['exposure scale', 'log10, of the paper at that setting'],
  setting: [
    'setting used',
    (density: string) => `the highlight held, the shadow prints ${density}`,
  ],
  base: ['base exposure', 'at that setting; in brackets 95 %'],
  light: ['log exposure', "without a negative, in the strips' unit; --strip-seconds makes seconds"],
  soft: ['soft light', 'in brackets 95 %'],
  hard: ['hard light', 'in brackets 95 %'],
  ratio: ['hard over soft', 'stops; in brackets 95 %'],
  mixture: ['exposure scale', 'log10, of the paper under both'],
  ladderTitle: 'What one stop more of each light does',
  ladderColumns: ['negative', 'print', 'L*', 'soft +1 stop', 'hard +1 stop'],
  three: (soft: string, hard: string) => `Nearest to three tones: soft ${soft} s, hard ${hard} s`,
  threeColumns: ['negative', 'wanted', 'print', 'off by'],
  burnTitle: 'What burning in makes of an area',
  burnColumns: ['negative', 'print before', 'after', 'L* before', 'after'],
  testSoft: 'First test strip, soft light: choose the highlight',
  testHard: (seconds: string) =>
    `Second, soft light ${seconds} s all over, then hard: choose the shadow`,
  tableTitle: 'For the darkroom wall, seconds',
  tableColumns: ['step', 'light', 'area', 'stops', 'timer', 'in all', 'since the start'],
  step: { whole: 'expose', dodge: 'hold back', burn: 'burn in' },
} as const;

/** The map of a paper, under its strips. */
export const PAPER_MAP_WORDS = {
  title: 'Settings',
  columns: ['setting', 'exposure scale, log10', 'threshold, log10', 'speed point, log10'],
  forScale: (position: string, nearest: string) =>
    `that scale: setting ${position}; the nearest strip is ${nearest}`,
  notReachable: {
    'softer-than-softest': (nearest: string, scale: string) =>
      `that scale is softer than any strip; the nearest is ${nearest} with ${scale} log10`,
    'harder-than-hardest': (nearest: string, scale: string) =>
      `that scale is harder than any strip; the nearest is ${nearest} with ${scale} log10`,
  },
  layers: {
    ok: 'Layers under soft and hard light',
    'not-determined': 'Layers under soft and hard light: the strips do not determine them',
  },
  parameterColumns: ['parameter', 'value', 'standard error'],
  leftOut: 'Each strip predicted from the others, print density',
  leftOutColumns: ['strip', 'root mean square', 'greatest'],
  notPossible: 'not possible',
} as const;

export const CONVERT_WORDS = {
  written: (file: string) => `${file} written`,
  title: (file: string) => `Readings of ${file}`,
} as const;

export const PLOT_WORDS = {
  isSvg: (file: string) =>
    `${file} holds SVG, whatever its name. Name it ${file.replace(/\.[^.]*$/, '.svg')}, or programs may refuse it.`,
  title: (strips: number) => (strips === 1 ? 'Characteristic curve' : 'Characteristic curves'),
  written: (file: string, strips: number) =>
    `${file}: ${strips} ${strips === 1 ? 'curve' : 'curves'} drawn`,
} as const;

/** One line, whatever stands in the names and words that it quotes. */
const line = (text: string): string => `wedgebook: ${text.replaceAll(/\p{Cc}+/gu, ' ')}\n`;

/** Lines on standard error. */
export const MESSAGES = {
  usage: (fault: string, verb: string | null) =>
    line(`${fault}. See: wedgebook ${verb === null ? '' : `${verb} `}--help`),
  input: line,
  unexpected: (message: string) => line(`this should not have happened: ${message}`),
} as const;

export const VERSION_LINE = 'wedgebook 0.1.0\n';
