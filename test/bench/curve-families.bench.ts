/**
 * The study behind the default curve: `npm run bench -- curve-families [replicates]`, 60 unless
 * given.
 *
 * Strips are read from known curves (`curve-truths.ts`), most of them outside every family, with
 * three unexposed readings, 11, 21, 31 and 41 steps from -3 to 0 and normal errors of 0.005, 0.01
 * and 0.02. Every family and the default path then estimate the speed point, the average gradient
 * over 1.30, the contrast index, gamma, and the density range from base + fog to the last step.
 * Printed are bias, root mean square error and the share of 95 % intervals that hold the truth.
 *
 * A truth's own measures come from a spline of 105 cells through its exact densities.
 */
import {
  constant,
  contrastIndex,
  derivedBaseFog,
  derivedDensity,
  derivedNetPoint,
  estimateOn,
  fitCurve,
  monotoneSmooth,
  plus,
  randomNormal,
  scaled,
  shifted,
  steepestPart,
  studentTQuantile,
  type CharacteristicCurve,
  type CurveFamily,
  type CurveMeasure,
  type Derived,
} from '@wedgebook/core';
import { TRUTHS, type Truth } from './curve-truths.ts';

const NOISES = [0.005, 0.01, 0.02];
const STEP_COUNTS = [11, 21, 31, 41];
const UNEXPOSED = 3;

const MEASURES: readonly (readonly [string, CurveMeasure])[] = [
  ['speed point', (curve) => derivedNetPoint(curve, 0.1)],
  ['gradient 1.30', gradientOver],
  ['contrast index', (curve) => contrastIndex(curve, 0.301)?.index ?? null],
  ['gamma', (curve) => steepestPart(curve)?.gamma ?? null],
  [
    'density range',
    (curve) => plus(derivedDensity(curve, constant(curve, 0)), derivedBaseFog(curve), -1),
  ],
];

const PATHS: readonly (readonly [string, CurveFamily | undefined])[] = [
  ['default path', undefined],
  ['toe-shoulder', 'toe-shoulder'],
  ['logistic-4', 'logistic-4'],
  ['logistic-5', 'logistic-5'],
  ['hurter-driffield', 'hurter-driffield'],
  ['monotone-smooth', 'monotone-smooth'],
  ['as-drawn', 'as-drawn'],
];

function gradientOver(curve: CharacteristicCurve): Derived | null {
  const from = derivedNetPoint(curve, 0.1);
  if (from === null) return null;
  const rise = plus(derivedDensity(curve, shifted(from, 1.3)), derivedDensity(curve, from), -1);
  return scaled(rise, 1 / 1.3);
}

interface Tally {
  count: number;
  missing: number;
  error: number;
  square: number;
  held: number;
  withError: number;
}

const emptyTally = (): Tally => ({
  count: 0,
  missing: 0,
  error: 0,
  square: 0,
  held: 0,
  withError: 0,
});

/** The measures of a truth. */
function exactMeasures(truth: Truth): (number | null)[] {
  const x = [-Infinity, ...Array.from({ length: 421 }, (_, i) => -4.2 + 0.01 * i)];
  const smooth = monotoneSmooth(x, x.map(truth.density), { cells: 105, penalty: 1e-9 });
  const curve: CharacteristicCurve = {
    family: 'monotone-smooth',
    parameters: smooth.parameters,
    parameterNames: [],
    covariance: null,
    knots: smooth.knots,
    logExposureRange: [-3, 0],
    densityRangeRead: [0, 4],
    residualStandardDeviation: null,
    degreesOfFreedom: 0,
    companions: [],
    weight: 1,
  };
  return MEASURES.map(([, measure]) => measure(curve)?.value ?? null);
}

/** tally[path][truth][noise][steps][measure]. */
type Tallies = Map<string, Tally>;

function tallyOf(tallies: Tallies, ...place: (string | number)[]): Tally {
  const key = place.join('|');
  let tally = tallies.get(key);
  if (!tally) tallies.set(key, (tally = emptyTally()));
  return tally;
}

function simulate(replicates: number): Tallies {
  const tallies: Tallies = new Map();
  const normal = randomNormal(1890);
  const quantile = new Map<number, number>();
  const quantileOf = (freedom: number): number => {
    const key = Math.round(freedom * 4) / 4;
    let value = quantile.get(key);
    if (value === undefined) quantile.set(key, (value = studentTQuantile(0.975, Math.max(1, key))));
    return value;
  };
  for (const truth of TRUTHS) {
    const exact = exactMeasures(truth);
    for (const noise of NOISES) {
      for (const steps of STEP_COUNTS) {
        const logExposures = Array.from({ length: steps }, (_, i) => -3 + (3 * i) / (steps - 1));
        for (let r = 0; r < replicates; r++) {
          const densities = logExposures.map((x) => truth.density(x) + noise * normal());
          const unexposedDensities = Array.from(
            { length: UNEXPOSED },
            () => truth.density(-Infinity) + noise * normal(),
          );
          for (const [path, family] of PATHS) {
            const fit = fitCurve(
              { logExposures, densities, unexposedDensities },
              family === undefined ? {} : { family },
            );
            MEASURES.forEach(([name, measure], m) => {
              const expected = exact[m] ?? null;
              if (expected === null) return;
              const tally = tallyOf(tallies, path, truth.name, noise, steps, name);
              const found = fit.status === 'ok' ? estimateOn(fit.curve, measure) : null;
              if (fit.status !== 'ok' || found === null) {
                tally.missing++;
                return;
              }
              // One wild value must not stand for all: errors count up to a half.
              const error = Math.max(-0.5, Math.min(0.5, found.value - expected));
              tally.count++;
              tally.error += error;
              tally.square += error * error;
              if (found.standardError === null) return;
              tally.withError++;
              const half = quantileOf(fit.curve.degreesOfFreedom) * found.standardError;
              if (Math.abs(found.value - expected) <= half) tally.held++;
            });
          }
        }
      }
    }
  }
  return tallies;
}

interface Summary {
  readonly bias: number;
  readonly root: number;
  readonly coverage: number | null;
  readonly missing: number;
}

/** Root mean square error and coverage averaged over truths, each truth pooled over its cells. */
function summary(
  tallies: Tallies,
  path: string,
  measure: string,
  keep: (truth: string, noise: number, steps: number) => boolean,
): Summary {
  let bias = 0;
  let root = 0;
  let coverage = 0;
  let covered = 0;
  let missing = 0;
  let all = 0;
  let truths = 0;
  for (const truth of TRUTHS) {
    const pooled = emptyTally();
    for (const noise of NOISES) {
      for (const steps of STEP_COUNTS) {
        if (!keep(truth.name, noise, steps)) continue;
        const tally = tallyOf(tallies, path, truth.name, noise, steps, measure);
        pooled.count += tally.count;
        pooled.error += tally.error;
        pooled.square += tally.square;
        pooled.held += tally.held;
        pooled.withError += tally.withError;
        missing += tally.missing;
        all += tally.count + tally.missing;
      }
    }
    if (pooled.count === 0) continue;
    truths++;
    bias += pooled.error / pooled.count;
    root += Math.sqrt(pooled.square / pooled.count);
    if (pooled.withError > 0) {
      coverage += pooled.held / pooled.withError;
      covered++;
    }
  }
  return {
    bias: (1000 * bias) / truths,
    root: (1000 * root) / truths,
    coverage: covered > 0 ? coverage / covered : null,
    missing: missing / Math.max(1, all),
  };
}

function printTable(
  title: string,
  tallies: Tallies,
  paths: readonly string[],
  keep: (truth: string, noise: number, steps: number) => boolean,
  show: (s: Summary) => string,
): void {
  console.log(`\n${title}\n`);
  console.log(`| | ${MEASURES.map(([name]) => name).join(' | ')} |`);
  console.log(`|---|${MEASURES.map(() => '---').join('|')}|`);
  for (const path of paths) {
    const cells = MEASURES.map(([measure]) => show(summary(tallies, path, measure, keep)));
    console.log(`| ${path} | ${cells.join(' | ')} |`);
  }
}

const percent = (share: number | null): string => (share === null ? '-' : share.toFixed(3));
const full = (s: Summary): string =>
  `${s.root.toFixed(1)} (${s.bias.toFixed(1)}), ${percent(s.coverage)}` +
  (s.missing > 0.0005 ? `, ${(100 * s.missing).toFixed(1)} % not given` : '');

/** Prints the tables of the study. */
export function main(args: readonly string[] = []): void {
  const replicates = Number(args[0] ?? 60);
  if (!(Number.isInteger(replicates) && replicates > 0)) throw new Error('replicates: 1 or more');
  const tallies = simulate(replicates);
  const paths = PATHS.map(([name]) => name);
  const everything = (): boolean => true;
  console.log(
    `${TRUTHS.length} truths, ${NOISES.length} noises, ${STEP_COUNTS.length} step counts, ` +
      `${replicates} strips a cell. Root mean square error x 1000 (bias x 1000), coverage of 95 % ` +
      'intervals; averaged over truths.',
  );
  printTable('All cells', tallies, paths, everything, full);

  const singles = paths.filter((path) => path !== 'default path');
  console.log('\nDefault path against the best single family\n');
  console.log('| measure | default | best single | its family | ratio | coverage |');
  console.log('|---|---|---|---|---|---|');
  for (const [measure] of MEASURES) {
    const own = summary(tallies, 'default path', measure, everything);
    const best = singles
      .map((path) => ({ path, ...summary(tallies, path, measure, everything) }))
      .reduce((a, b) => (b.root < a.root ? b : a));
    console.log(
      `| ${measure} | ${own.root.toFixed(1)} | ${best.root.toFixed(1)} | ${best.path} | ` +
        `${(own.root / best.root).toFixed(2)} | ${percent(own.coverage)} |`,
    );
  }
  for (const noise of NOISES) {
    printTable(`Noise ${noise}`, tallies, paths, (_, at) => at === noise, full);
  }
  for (const steps of STEP_COUNTS) {
    printTable(`${steps} steps`, tallies, paths, (_, __, at) => at === steps, full);
  }
  for (const truth of TRUTHS) {
    printTable(`Truth: ${truth.name}`, tallies, paths, (at) => at === truth.name, full);
  }
}
