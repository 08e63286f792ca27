/**
 * How often slips of reading are found, and how often a good strip is suspected: `npm run bench --
 * slips [strips a cell]`, 40 unless given.
 *
 * Strips are read from the truths of the study of curve families, most of them outside every
 * family, at 11, 21, 31 and 41 steps with errors of 0.005, 0.01 and 0.02 and three readings of the
 * unexposed film, rounded to two decimals as they are written. Then one slip is made: two digits
 * swapped, the decimal point lost, a reading of a neighbouring step written, a step skipped, a step
 * read twice. A slip is only counted where it changes a density by 0.1 or more, or, of a moved part,
 * by a root mean square of 0.03. A find must name the right reading; a moved part, its beginning to
 * within two steps.
 *
 * Most of a moved part is another toe or shoulder to any curve. What it leaves is the distance of the
 * exact densities, moved, from the nearest toe-shoulder curve, beyond that of the exact densities as
 * they should stand, in errors of a reading
 * (rounding included), by the root of the sum of squares. A moved part that leaves less than 4 hardly
 * can be told; it has rows of its own.
 */
import { findSuspects, fitCurve, fitModel, randomNormal, toeShoulder } from '@wedgebook/core';
import { TRUTHS } from './curve-truths.ts';

const NOISES = [0.005, 0.01, 0.02];
const STEP_COUNTS = [11, 21, 31, 41];
const KINDS = [
  'none',
  'digits swapped',
  'point lost',
  'neighbouring step',
  'step skipped',
  'step skipped, hidden',
  'step read twice',
  'step read twice, hidden',
] as const;

type Kind = (typeof KINDS)[number];

interface Tally {
  strips: number;
  /** The slip made was found. */
  found: number;
  /** It was found, and named for what it is with the number that was read. */
  named: number;
  /** Strips on which a good reading was suspected. */
  falseReadings: number;
  /** Strips on which a step was wrongly said to be skipped or read twice. */
  falseSteps: number;
}

/** What a moved part must leave to be told, in errors of a reading. */
const LEAST_LEFT = 4;

const skips = (kind: Kind): boolean => kind.startsWith('step skipped');
const moves = (kind: Kind): boolean => skips(kind) || kind.startsWith('step read twice');

/** What is left of a moved part once the nearest curve has taken its share, in errors. */
function leftOf(exact: readonly number[], slipped: readonly number[], noise: number): number {
  const x = exact.map((_, i) => i);
  const squareOf = (y: readonly number[]): number =>
    fitModel(toeShoulder, x, y).residualSumOfSquares;
  const beyond = Math.max(0, squareOf(slipped) - squareOf(exact));
  return Math.sqrt(beyond) / Math.hypot(noise, 0.01 / Math.sqrt(12));
}

const round = (density: number): number => Math.round(density * 100) / 100;

/** The two digits after the point, or those about it, exchanged. */
function swapped(density: number, far: boolean): number {
  const [a = '0', b = '0', c = '0'] = density.toFixed(2).replace('.', '');
  return Number(far ? `${a}.${c}${b}` : `${b}.${a}${c}`);
}

interface Slipped {
  readonly densities: number[];
  /** Place of the slip. */
  readonly at: number;
}

/** Makes a slip; null where this strip has no place for it. */
function slip(
  kind: Kind,
  read: readonly number[],
  beyond: number,
  chance: () => number,
): Slipped | null {
  const n = read.length;
  const densities = [...read];
  const inner = (): number => 3 + Math.floor(chance() * (n - 5));
  if (kind === 'none') return { densities, at: -1 };
  if (moves(kind)) {
    const at = inner();
    const moved = skips(kind)
      ? [...read.slice(0, at), ...read.slice(at + 1), beyond]
      : [...read.slice(0, at), ...read.slice(at - 1, -1)];
    const square = moved.reduce((sum, value, i) => sum + (value - (read[i] ?? 0)) ** 2, 0) / n;
    return Math.sqrt(square) >= 0.03 ? { densities: moved, at } : null;
  }
  const at = Math.floor(chance() * n);
  const good = read[at] ?? 0;
  const bad = {
    'digits swapped': swapped(good, chance() < 0.5),
    'point lost': chance() < 0.5 ? good / 10 : good * 10,
    'neighbouring step': read[at + (chance() < 0.5 ? -1 : 1)] ?? good,
  }[kind as 'digits swapped' | 'point lost' | 'neighbouring step'];
  if (Math.abs(bad - good) < 0.1) return null;
  densities[at] = bad;
  return { densities, at };
}

function study(strips: number, noise: number, steps: number, kind: Kind): Tally {
  const normal = randomNormal(1 + steps + 1000 * noise);
  let state = 17 * steps + KINDS.indexOf(kind);
  const chance = (): number => (state = (state * 48271 + 11) % 2147483647) / 2147483647;
  const tally: Tally = { strips: 0, found: 0, named: 0, falseReadings: 0, falseSteps: 0 };
  const step = 3 / (steps - 1);
  const logExposures = Array.from({ length: steps }, (_, i) => -3 + i * step);
  for (const truth of TRUTHS) {
    const reading = (x: number): number => round(truth.density(x) + noise * normal());
    for (let r = 0; r < strips; r++) {
      const read = logExposures.map(reading);
      const slipped = slip(kind, read, reading(step), chance);
      if (!slipped) continue;
      const { densities, at } = slipped;
      if (moves(kind)) {
        const by = skips(kind) ? 1 : -1;
        const exact = logExposures.map((x) => truth.density(x));
        const shifted = logExposures.map((x, i) => truth.density(i < at ? x : x + by * step));
        const isHidden = leftOf(exact, shifted, noise) < LEAST_LEFT;
        if (isHidden !== kind.endsWith('hidden')) continue;
      }
      const unexposedDensities = [0, 1, 2].map(() => reading(-Infinity));
      const readings = { logExposures, densities, unexposedDensities };
      const fit = fitCurve(readings, { suspects: findSuspects });
      if (fit.status !== 'ok') continue;
      tally.strips++;
      const { suspects, warnings } = fit;
      const moved = warnings.find(({ code }) => code === 'step-slip')?.details;
      const place = moved ? logExposures.indexOf(Number(moved['logExposure'])) : -1;
      const isMoved = moves(kind);
      const own = suspects.find(({ x }) => x === logExposures[at]);
      if (isMoved ? moved && Math.abs(place - at) <= 2 : own) tally.found++;
      if (isMoved) {
        const name = skips(kind) ? 'step-skipped' : 'step-doubled';
        if (moved?.['kind'] === name && Math.abs(place - at) <= 2) tally.named++;
      } else if (own && Math.abs((own.slip?.meant ?? own.expected) - (read[at] ?? 0)) < 0.05)
        tally.named++;
      if (suspects.some((one) => one !== own)) tally.falseReadings++;
      if (moved && !isMoved) tally.falseSteps++;
    }
  }
  return tally;
}

/** Prints the tables. */
export function main(args: readonly string[] = []): void {
  const strips = Number(args[0] ?? 40);
  const share = (part: number, of: number): string =>
    `${((100 * part) / Math.max(1, of)).toFixed(1)} %`;
  const row = (title: string, tallies: readonly Tally[]): void => {
    const sum = (key: keyof Tally): number =>
      tallies.reduce((total, tally) => total + tally[key], 0);
    const all = sum('strips');
    const cells = (['found', 'named', 'falseReadings', 'falseSteps'] as const).map((key) =>
      share(sum(key), all),
    );
    console.log(`| ${title} | ${all} | ${cells.join(' | ')} |`);
  };
  const tallies = KINDS.flatMap((kind) =>
    STEP_COUNTS.flatMap((steps) =>
      NOISES.map((noise) => ({ kind, steps, noise, tally: study(strips, noise, steps, kind) })),
    ),
  );
  console.log(
    '| slip | strips | found | rightly named | good reading suspected | step wrongly moved |',
  );
  console.log('|---|---|---|---|---|---|');
  for (const kind of KINDS) {
    row(
      kind,
      tallies.filter((one) => one.kind === kind).map(({ tally }) => tally),
    );
  }
  console.log(
    '\n| steps, error, slip | strips | found | rightly named | good reading suspected | step wrongly moved |',
  );
  console.log('|---|---|---|---|---|---|');
  for (const steps of STEP_COUNTS) {
    for (const noise of NOISES) {
      for (const kind of ['none', 'digits swapped', 'step skipped'] as const) {
        const cell = tallies.filter(
          (one) => one.kind === kind && one.steps === steps && one.noise === noise,
        );
        row(
          `${steps}, ${noise}, ${kind}`,
          cell.map(({ tally }) => tally),
        );
      }
    }
  }
}
