/** `print`: exposure times at the enlarger. */
import {
  exposureScaleWithFlash,
  stopsBetween,
  testStrip,
  timeForDensity,
  timeForMagnification,
  timeInStops,
  type TestStripPatch,
} from '@wedgebook/core';
import type { Arguments } from '../input/arguments.ts';
import { alignedTable, factList } from '../output/aligned-table.ts';
import { fixed, significant } from '../output/figures.ts';
import { PRINT_WORDS as W, USAGE } from '../text.ts';
import { UsageError } from '../usage-error.ts';
import type { Verb } from './verb.ts';

/** One change on the way from the first time to the last. */
interface Change {
  readonly change: 'density' | 'magnification' | 'stops';
  readonly seconds: number;
}

export const print: Verb = {
  options: {
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
  run: (given) => {
    if (given.positionals.length > 0) throw new UsageError(USAGE.noFile);
    const first = given.number('seconds', 0.01, 100_000);
    const flashed = flashedScale(given);
    if (first === undefined && flashed === null) {
      throw new UsageError(
        USAGE.needs('seconds', 'the time that serves now, or --flash and --scale'),
      );
    }
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
        warnings: [],
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
          alignedTable(
            W.stripColumns.map((title) => ({ title, align: 'right' }) as const),
            strip.map((patch, index) => [
              String(index + 1),
              fixed(patch.totalSeconds, 2),
              fixed(patch.additionalSeconds, 2),
            ]),
            '  ',
          ),
        ].join(''),
    });
  },
};

const secondsText = (seconds: number): string => `${fixed(seconds, 2)} s`;

/** Both options of a pair, or neither. */
function pair(
  given: Arguments,
  what: 'density' | 'magnification',
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
  const stops = given.number('stops', -20, 20);
  if (stops !== undefined) add('stops', timeInStops(seconds, stops));
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
