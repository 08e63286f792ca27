/** `print`: exposure times at the enlarger. */
import {
  dryDown,
  exposureScaleWithFlash,
  stopsBetween,
  testStrip,
  timeForAperture,
  timeForDensity,
  timeForMagnification,
  timeInStops,
  type TestStripPatch,
} from '@wedgebook/core';
import type { Arguments } from '../input/arguments.ts';
import { chainJson, chainText } from '../output/chain-output.ts';
import { paperOfStrips } from '../printing/paper-of-strips.ts';
import { CHAIN_OPTIONS, FILM_ONLY, toneChainOf } from '../printing/tone-chain-of.ts';
import { fileName } from '../input/read-file.ts';
import { factList } from '../output/aligned-table.ts';
import { fixed, significant } from '../output/figures.ts';
import { patchTable, printOnPaperJson, printOnPaperText } from '../output/print-text.ts';
import { shownWarnings, warningLines } from '../output/warnings.ts';
import { printOnPaper } from '../printing/print-on-paper.ts';
import type { CommandIo, Outcome } from '../io.ts';
import { NEGATIVE_OPTIONS } from '../input/negative.ts';
import { STRIP_OPTIONS } from '../input/strip-options.ts';
import { gradeTableOf, GRADE_OPTIONS } from '../input/grade-table.ts';
import { unusedOptions, type OptionGroup } from '../input/unused-options.ts';
import { PRINT_WORDS as W, USAGE } from '../text.ts';
import { UNUSED } from '../unused-text.ts';
import { UsageError } from '../usage-error.ts';
import { measuredPapers } from './paper.ts';
import type { Verb } from './verb.ts';

/** One change on the way from the first time to the last. */
interface Change {
  readonly change: 'density' | 'magnification' | 'aperture' | 'stops' | 'dry-down';
  readonly seconds: number;
}

export const print: Verb = {
  options: {
    ...STRIP_OPTIONS,
    ...GRADE_OPTIONS,
    ...NEGATIVE_OPTIONS,
    ...CHAIN_OPTIONS,
    'density-basis': { type: 'string' },
    'base-fog': { type: 'string' },
    'reading-error': { type: 'string' },
    paper: { type: 'string' },
    'print-shadow': { type: 'string' },
    'print-highlight': { type: 'string' },
    middle: { type: 'string' },
    setting: { type: 'string' },
    'strip-seconds': { type: 'string' },
    'burn-soft': { type: 'string' },
    'burn-hard': { type: 'string' },
    areas: { type: 'string' },
    timer: { type: 'string' },
    'from-aperture': { type: 'string' },
    'to-aperture': { type: 'string' },
    'dry-down': { type: 'string' },
    seconds: { type: 'string' },
    'from-density': { type: 'string' },
    'to-density': { type: 'string' },
    'from-magnification': { type: 'string' },
    'to-magnification': { type: 'string' },
    stops: { type: 'string' },
    burn: { type: 'string' },
    dodge: { type: 'string' },
    'test-strip': { type: 'string' },
    step: { type: 'string' },
    flash: { type: 'string' },
    scale: { type: 'string' },
  },
  run: (given, io) => {
    const [alone] = given.positionals;
    if (alone !== undefined) {
      throw new UsageError(USAGE.noFile(alone, ['--paper FILE', '--film FILE']));
    }
    const paperFile = given.text('paper');
    const withFilm = given.has('film');
    if (!withFilm) {
      const idle = FILM_ONLY.find((name) => given.has(name));
      if (idle !== undefined) throw new UsageError(USAGE.needsFilm(idle));
    }
    if (paperFile === '-' && given.text('film') === '-') throw new UsageError(USAGE.stdinTwice);
    if (paperFile !== undefined) return onPaper(paperFile, given, io);
    const idle = PAPER_ONLY.find((name) => given.has(name) && !(withFilm && SPOTS.has(name)));
    if (idle !== undefined) throw new UsageError(USAGE.needsPaper(idle));
    if (withFilm) return onFilm(given, io);
    const first = given.number('seconds', 0.01, 100_000);
    const flashed = flashedScale(given);
    if (first === undefined && flashed === null) {
      throw new UsageError(
        USAGE.needs('seconds', 'the time that serves now, or --flash and --scale'),
      );
    }
    const unused = unusedOptions(given, [
      { names: STRIPS_ONLY, used: false, remedy: UNUSED.strips },
      ...everywhere(given),
    ]);
    const changes = first === undefined ? [] : changesOf(first, given);
    const seconds = changes.at(-1)?.seconds ?? first ?? null;
    const burn = seconds === null ? null : burnSeconds(seconds, given.number('burn', 0, 10));
    const dodge = seconds === null ? null : dodgeSeconds(seconds, given.number('dodge', 0, 10));
    const strip = seconds === null ? [] : stripOf(seconds, given);
    return Promise.resolve({
      json: {
        seconds,
        ...(first !== undefined && seconds !== null && { stops: stopsBetween(first, seconds) }),
        changes,
        ...(burn !== null && { burnSeconds: burn }),
        ...(dodge !== null && { dodgeSeconds: dodge }),
        ...(strip.length > 0 && { testStrip: strip }),
        ...(flashed !== null && { exposureScaleWithFlash: flashed }),
        warnings: unused,
      },
      text: () =>
        [
          factList([
            ...(first === undefined ? [] : [[W.first, secondsText(first), '']]),
            ...changes.map((one) => [
              W.change[one.change],
              secondsText(one.seconds),
              first === undefined ? '' : W.stops(fixed(stopsBetween(first, one.seconds), 2)),
            ]),
            ...(burn === null ? [] : [[W.burn[0], secondsText(burn), W.burn[1]]]),
            ...(dodge === null ? [] : [[W.dodge[0], secondsText(dodge), W.dodge[1]]]),
            ...(flashed === null ? [] : [[W.flash[0], significant(flashed, 4), W.flash[1]]]),
          ]),
          patchTable(strip),
          warningLines(unused),
        ].join(''),
    });
  },
};

/** What a film needs too. */
const SPOTS: ReadonlySet<string> = new Set(['shadow', 'highlight', 'print-highlight']);

/** Options that mean nothing without a paper. */
const PAPER_ONLY = [
  'shadow',
  'highlight',
  'print-shadow',
  'print-highlight',
  'middle',
  'setting',
  'strip-seconds',
  'burn-soft',
  'burn-hard',
  'areas',
] as const;

/** Options that mean nothing without strips of paper or film, and with them. */
const STRIPS_ONLY = [
  'light',
  'callier',
  'callier-error',
  'stain',
  'base-fog',
  'density-basis',
  'reading-error',
  'timer',
  ...Object.keys(STRIP_OPTIONS),
  ...Object.keys(GRADE_OPTIONS),
];
const SECONDS_ONLY = [
  'seconds',
  'from-density',
  'to-density',
  'stops',
  'burn',
  'dodge',
  'flash',
  'scale',
];
/** What changes the seconds of a paper, which film alone does not tell. */
const CHANGES_ONLY = [
  'from-magnification',
  'to-magnification',
  'from-aperture',
  'to-aperture',
  'dry-down',
  'test-strip',
];

const everywhere = (given: Arguments): readonly OptionGroup[] => [
  { names: ['range'], used: false, remedy: UNUSED.spots },
  { names: ['step'], used: given.has('test-strip'), remedy: UNUSED.testStrip },
];

async function onPaper(paperFile: string, given: Arguments, io: CommandIo): Promise<Outcome> {
  const { papers, warnings } = await measuredPapers(paperFile, given, io, gradeTableOf(given));
  const print = printOnPaper(given, papers, paperFile);
  const chain = given.has('film')
    ? await toneChainOf(given, io, gradeTableOf(given), {
        print,
        ...paperOfStrips(papers, fileName(paperFile)),
      })
    : null;
  const isSplit = print.split?.status === 'ok';
  const shown = [
    ...shownWarnings(
      warnings,
      print.warnings,
      chain?.warnings ?? [],
      ...papers.map(({ fitted, measures }) => [
        ...fitted.warnings,
        ...(measures?.warnings ?? []).filter(({ code }) => code !== 'exposure-relative'),
      ]),
    ),
    ...unusedOptions(given, [
      { names: SECONDS_ONLY, used: false, remedy: UNUSED.seconds },
      { names: ['test-strip', 'middle'], used: isSplit, remedy: UNUSED.split },
      ...ofBath(given),
      ...everywhere(given),
    ]),
  ];
  return {
    json: {
      ...printOnPaperJson(print),
      ...(chain !== null && { toneChain: chainJson(chain) }),
      warnings: shown,
    },
    text: () =>
      `${printOnPaperText(print)}${chain === null ? '' : `\n${chainText(chain)}`}${warningLines(shown)}`,
  };
}

const ofBath = (given: Arguments): readonly OptionGroup[] => [
  { names: ['law', 'response'], used: given.has('treated'), remedy: UNUSED.treatedOfFilm },
];

/** The chain alone, on the paper of a grade or a scale. */
async function onFilm(given: Arguments, io: CommandIo): Promise<Outcome> {
  const chain = await toneChainOf(given, io, gradeTableOf(given), null);
  const shown = [
    ...shownWarnings(chain.warnings),
    ...unusedOptions(given, [
      { names: [...SECONDS_ONLY, ...CHANGES_ONLY], used: false, remedy: UNUSED.seconds },
      {
        names: ['density-basis', 'reading-error', 'timer'],
        used: false,
        remedy: UNUSED.paper,
      },
      ...ofBath(given),
      ...everywhere(given),
    ]),
  ];
  return {
    json: { toneChain: chainJson(chain), warnings: shown },
    text: () => `${chainText(chain)}${warningLines(shown)}`,
  };
}

const secondsText = (seconds: number): string => `${fixed(seconds, 2)} s`;

/** Both options of a pair, or neither. */
function pair(
  given: Arguments,
  what: 'density' | 'magnification' | 'aperture',
  lowest: number,
  highest: number,
): readonly [number, number] | null {
  const from = given.number(`from-${what}`, lowest, highest);
  const to = given.number(`to-${what}`, lowest, highest);
  if (from === undefined && to === undefined) return null;
  if (from === undefined || to === undefined) throw new UsageError(USAGE.bothOf(what));
  return [from, to];
}

function changesOf(first: number, given: Arguments): Change[] {
  const changes: Change[] = [];
  let seconds = first;
  const add = (change: Change['change'], next: number): void => {
    seconds = next;
    changes.push({ change, seconds });
  };
  const densities = pair(given, 'density', -0.5, 6);
  if (densities !== null) add('density', timeForDensity(seconds, ...densities));
  const magnifications = pair(given, 'magnification', 0.01, 100);
  if (magnifications !== null)
    add('magnification', timeForMagnification(seconds, ...magnifications));
  const apertures = pair(given, 'aperture', 0.5, 128);
  if (apertures !== null) add('aperture', timeForAperture(seconds, ...apertures));
  const stops = given.number('stops', -20, 20);
  if (stops !== undefined) add('stops', timeInStops(seconds, stops));
  const percent = given.number('dry-down', 0, 50);
  if (percent !== undefined) add('dry-down', dryDown(seconds, percent).seconds);
  return changes;
}

/** Time on top of the whole exposure. */
const burnSeconds = (seconds: number, stops: number | undefined): number | null =>
  stops === undefined ? null : timeInStops(seconds, stops) - seconds;

/** Time held back out of the whole exposure. */
const dodgeSeconds = (seconds: number, stops: number | undefined): number | null =>
  stops === undefined ? null : seconds - timeInStops(seconds, -stops);

function stripOf(seconds: number, given: Arguments): readonly TestStripPatch[] {
  const patches = given.number('test-strip', 2, 30);
  const step = given.number('step', 0.01, 5) ?? 1 / 3;
  if (patches === undefined) return [];
  if (!Number.isInteger(patches)) throw new UsageError(USAGE.notWhole('test-strip'));
  return testStrip(seconds, step, patches);
}

/** The exposure scale that a pre-flash makes of a paper's. */
function flashedScale(given: Arguments): number | null {
  const flash = given.number('flash', 0, 0.99);
  const scale = given.number('scale', 0.1, 4);
  if (flash === undefined && scale === undefined) return null;
  if (flash === undefined || scale === undefined) throw new UsageError(USAGE.flashAndScale);
  return exposureScaleWithFlash(scale, flash);
}
