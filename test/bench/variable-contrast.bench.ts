/**
 * How well the curve of a variable-contrast paper is predicted under a mixture of lights that nobody
 * tried: the layer model against interpolation between the grades of the strips, and against the rule
 * of reciprocal times at every density. Generated strips of invented papers: 21 steps, noise 0.01,
 * densities rounded to 0.01; soft light alone and hard light alone, then also one mixed strip. The
 * error is the root mean square against the true density over the steps, mean of five mixtures.
 *
 * Then how often the 95 % intervals of soft and hard seconds hold the exposures that the paper truly
 * needs for two tones of three negatives: with the errors of the chosen number of layers alone, and
 * with those of the choice.
 *
 * `npm run bench -- variable-contrast [runs]`
 */
import {
  densityAt,
  densityOfMixedExposure,
  exposureForTone,
  fitPaperCurve,
  fitVariableContrast,
  logExposureAt,
  paperForSetting,
  paperMap,
  paperResponse,
  type CharacteristicCurve,
} from '@wedgebook/core';
import { ratiosOf, readerOf, STEPS, stripsOfTruth } from './mixture-strips.ts';
import { MIXTURE_TRUTHS, type MixtureTruth } from './mixture-truths.ts';
import { studyCoverage } from './split-coverage.ts';

/** log10 of hard over soft exposure, none of them among the strips. */
const WANTED = [-1.2, -0.8, -0.45, -0.15, 0.2];

export interface MixtureRow {
  readonly truth: string;
  readonly strips: number;
  /** Root mean square errors, print density. */
  readonly layers: number;
  readonly grades: number;
  readonly reciprocal: number;
  /** Share of predictions in which the layer model was the nearest of the three. */
  readonly wins: number;
  readonly failures: number;
}

/** Runs the study on one paper. */
export function studyMixture(
  truth: MixtureTruth,
  strips: 2 | 3,
  runs: number,
  seed: number,
): MixtureRow {
  const read = readerOf(truth, seed);
  const ratios = ratiosOf(strips);
  const draw = stripsOfTruth(truth, strips, seed, read);
  const squares = { layers: 0, grades: 0, reciprocal: 0 };
  let [wins, done, failures] = [0, 0, 0];
  for (let run = 0; run < runs; run++) {
    const read3 = draw();
    const fit = fitVariableContrast(read3.flat());
    const white = Array.from({ length: 3 }, () => read(-Infinity, -Infinity));
    const curves = read3.map((readings): CharacteristicCurve => {
      const one = fitPaperCurve({
        logExposures: STEPS,
        densities: readings.map(({ density }) => density),
        unexposedDensities: white,
      });
      if (one.status !== 'ok') throw new Error(one.reason);
      return one.curve;
    });
    const { paper } = fit;
    const [softCurve, hardCurve] = [curves[0], curves.at(-1)];
    if (paper === null || softCurve === undefined || hardCurve === undefined) {
      failures++;
      continue;
    }
    const byGrades = interpolatedGrades(curves, ratios);
    const byTimes = reciprocalTimes(softCurve, hardCurve);
    for (const ratio of WANTED) {
      const errorOf = (predicted: (x: number) => number) =>
        STEPS.reduce((sum, x) => sum + (predicted(x) - truth.density(x + ratio, x)) ** 2, 0) /
        STEPS.length;
      const errors = {
        layers: errorOf((x) =>
          densityOfMixedExposure(paper, { hardLogExposure: x + ratio, softLogExposure: x }),
        ),
        grades: errorOf(byGrades(ratio)),
        reciprocal: errorOf((x) => byTimes(x + ratio, x)),
      };
      squares.layers += errors.layers;
      squares.grades += errors.grades;
      squares.reciprocal += errors.reciprocal;
      if (errors.layers < Math.min(errors.grades, errors.reciprocal)) wins++;
      done++;
    }
  }
  const root = (sum: number) => Math.sqrt(sum / done);
  return {
    truth: truth.name,
    strips,
    layers: root(squares.layers),
    grades: root(squares.grades),
    reciprocal: root(squares.reciprocal),
    wins: wins / done,
    failures,
  };
}

/**
 * Interpolation between grades: each strip is a grade, placed by the share of hard light in what it
 * does at net 0.60; the curve in between has that share, and reaches net 0.60 where the parts of the
 * two lights add up to one.
 */
function interpolatedGrades(
  curves: readonly CharacteristicCurve[],
  ratios: readonly number[],
): (ratio: number) => (x: number) => number {
  const speedOf = (curve: CharacteristicCurve | undefined): number => {
    const at = curve === undefined ? null : logExposureAt(curve, densityAt(curve, -Infinity) + 0.6);
    if (at === null) throw new Error('no speed point');
    return at;
  };
  const [soft, hard] = [speedOf(curves[0]), speedOf(curves.at(-1))];
  const parts = (ratio: number) => {
    const [s, h] = [10 ** -soft, 10 ** (ratio - hard)];
    return { share: h / (s + h), speedX: -Math.log10(s + h) };
  };
  const map = paperMap(
    curves.map((curve, i) => {
      const ratio = ratios[i] ?? 0;
      const share = ratio === -Infinity ? 0 : ratio === Infinity ? 1 : parts(ratio).share;
      return { setting: share.toFixed(6), curve };
    }),
  );
  if (map.status !== 'ok') throw new Error(map.reason);
  return (ratio) => {
    const { share, speedX } = parts(ratio);
    const response = paperResponse(paperForSetting(map.map, share));
    const above = exposureForTone(response, 0.6) ?? 0;
    return (x) => (response.whiteDensity ?? 0) + response.tone(x - speedX + above).netDensity;
  };
}

/** The rule of reciprocal times at every density: 10^(x_s - X_s(D)) + 10^(x_h - X_h(D)) = 1. */
function reciprocalTimes(
  soft: CharacteristicCurve,
  hard: CharacteristicCurve,
): (hardX: number, softX: number) => number {
  const white = 0.5 * (densityAt(soft, -Infinity) + densityAt(hard, -Infinity));
  return (hardX, softX) => {
    // The density at which both lights together are just enough; too high a density needs more.
    let [low, high] = [white, Math.min(soft.densityRangeRead[1], hard.densityRangeRead[1]) - 0.005];
    for (let i = 0; i < 40; i++) {
      const middle = 0.5 * (low + high);
      const [s, h] = [logExposureAt(soft, middle), logExposureAt(hard, middle)];
      const sum = s === null || h === null ? Infinity : 10 ** (softX - s) + 10 ** (hardX - h);
      if (sum > 1) low = middle;
      else high = middle;
    }
    return 0.5 * (low + high);
  };
}

/** Prints the table of the study. */
export function main(args: readonly string[]): void {
  const runs = Number(args[0] ?? 40);
  const heads = ['paper', 'strips', 'layers', 'grades', 'reciprocal', 'nearest', 'none'];
  console.log(heads.map((head, i) => (i === 0 ? head.padEnd(38) : head.padStart(11))).join(''));
  for (const strips of [2, 3] as const) {
    for (const [i, truth] of MIXTURE_TRUTHS.entries()) {
      const row = studyMixture(truth, strips, runs, 400 + i);
      const cells = [
        String(strips),
        ...[row.layers, row.grades, row.reciprocal].map((error) => error.toFixed(4)),
        `${(100 * row.wins).toFixed(0)} %`,
        String(row.failures),
      ];
      console.log(row.truth.padEnd(38) + cells.map((cell) => cell.padStart(11)).join(''));
    }
  }
  coverage(runs);
}

function coverage(runs: number): void {
  console.log('\n95 % intervals of soft and hard exposure that hold the true one');
  const heads = ['paper', 'strips', 'chosen', 'all', '± stops', 'error', 'intervals'];
  console.log(heads.map((head, i) => (i === 0 ? head.padEnd(38) : head.padStart(11))).join(''));
  for (const strips of [2, 3] as const) {
    for (const [i, truth] of MIXTURE_TRUTHS.entries()) {
      const row = studyCoverage(truth, strips, runs, 700 + i);
      const cells = [
        String(strips),
        row.conditional.toFixed(3),
        row.unconditional.toFixed(3),
        row.halfWidthStops.toFixed(3),
        row.errorStops.toFixed(3),
        String(row.intervals),
      ];
      console.log(row.truth.padEnd(38) + cells.map((cell) => cell.padStart(11)).join(''));
    }
  }
}
