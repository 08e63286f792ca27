/**
 * Prints, for every NIST set, the digits that agree with the certified values: `npm run bench --
 * nist-digits`; with `peers` also those of ml-levenberg-marquardt with analytic derivatives, at its
 * default of 100 iterations and with 2,000 (some minutes). Credit NIST StRD.
 */
import { levenbergMarquardt } from 'ml-levenberg-marquardt';
import { Matrix, QrDecomposition } from 'ml-matrix';
import { MultivariateLinearRegression, PolynomialRegression } from 'ml-regression';
import { NIST_MODELS } from '../published/nist-models.ts';
import {
  digits,
  fitNistLinearSet,
  fitNistSet,
  nistLinearSets,
  nistNonlinearSets,
  type NistLinearSet,
  type NistSet,
} from '../published/nist-sets.ts';

/** Writes the two tables. */
export function main(args: readonly string[] = []): void {
  console.log('Nonlinear sets: least digits over parameters and standard deviations, at most 11\n');
  console.log('| set | start 1 | sd | evaluations | start 2 | sd | evaluations |');
  console.log('|---|---|---|---|---|---|---|');
  const least = { parameters: 11, deviations: 11 };
  for (const set of nistNonlinearSets()) {
    const cells = set.starts.flatMap((start) => {
      const fit = fitNistSet(set, start);
      const parameters = digits(fit.parameters, set.parameters);
      const deviations = digits(fit.standardErrors, set.standardDeviations);
      least.parameters = Math.min(least.parameters, parameters);
      if (set.name !== 'Lanczos1') least.deviations = Math.min(least.deviations, deviations);
      return [parameters.toFixed(1), deviations.toFixed(1), fit.report.iterations];
    });
    console.log(`| ${set.name} | ${cells.join(' | ')} |`);
  }
  console.log(
    `\nLeast: parameters ${least.parameters.toFixed(1)}, standard deviations ` +
      `${least.deviations.toFixed(1)} without Lanczos1, whose sum of squares is below rounding.\n`,
  );
  console.log('Linear sets: least digits, at most 15\n');
  console.log('| set | coefficients | standard deviations | ml-regression | QR of ml-matrix |');
  console.log('|---|---|---|---|---|');
  for (const set of nistLinearSets()) {
    const fit = fitNistLinearSet(set);
    if (fit.status !== 'ok') throw new Error(`${set.name}: ${fit.reason}`);
    const exact = set.residualStandardDeviation === 0;
    const deviations = exact
      ? 'exact fit'
      : digits(fit.standardErrors ?? [], set.standardDeviations, 15).toFixed(1);
    const peers = [byRegression(set), byQr(set)].map((found) =>
      digits(found, set.coefficients, 15).toFixed(1),
    );
    const own = digits(fit.coefficients, set.coefficients, 15).toFixed(1);
    console.log(`| ${set.name} | ${own} | ${deviations} | ${peers.join(' | ')} |`);
  }
  if (args.includes('peers')) comparePeer();
}

/** Rows of the design matrix with raw powers. */
function designOf(set: NistLinearSet): number[][] {
  return set.x.map((row) => {
    if (set.form === 'polynomial') return set.coefficients.map((_, k) => row[0]! ** k);
    return set.form === 'with-intercept' ? [1, ...row] : [...row];
  });
}

/** ml-regression: normal equations. Its polynomial needs raw powers to compare coefficients. */
function byRegression(set: NistLinearSet): number[] {
  try {
    if (set.form === 'polynomial') {
      const x = set.x.map((row) => row[0]!);
      return new PolynomialRegression(x, set.y, set.coefficients.length - 1).coefficients;
    }
    const intercept = set.form === 'with-intercept';
    const weights = new MultivariateLinearRegression(
      set.x,
      set.y.map((y) => [y]),
      { intercept },
    ).weights.map((row) => row[0]!);
    // Its intercept comes last.
    return intercept ? [weights.at(-1)!, ...weights.slice(0, -1)] : weights;
  } catch {
    return [];
  }
}

function byQr(set: NistLinearSet): number[] {
  const qr = new QrDecomposition(new Matrix(designOf(set)));
  if (!qr.isFullRank()) return [];
  return qr.solve(Matrix.columnVector([...set.y])).to1DArray();
}

function comparePeer(): void {
  console.log('\nNonlinear sets by ml-levenberg-marquardt with analytic derivatives, 54 runs\n');
  console.log('| iterations | 6 digits or more | 8 digits or more |');
  console.log('|---|---|---|');
  for (const maxIterations of [100, 2000]) {
    const found = nistNonlinearSets().flatMap((set) =>
      set.starts.map((start) => digits(byPeer(set, start, maxIterations), set.parameters)),
    );
    const atLeast = (least: number): number => found.filter((value) => value >= least).length;
    console.log(`| ${maxIterations} | ${atLeast(6)} | ${atLeast(8)} |`);
  }
}

function byPeer(set: NistSet, start: readonly number[], maxIterations: number): number[] {
  const model = NIST_MODELS[set.name]!;
  const row = new Float64Array(start.length);
  // The peer knows one predictor: it is given the number of the row.
  const rows = set.y.map((_, i) => i);
  try {
    return levenbergMarquardt({ x: rows, y: set.y }, (b) => (i) => model(set.x[i]!, b, row), {
      initialValues: start,
      jacobianFunction: (b) => (i) => {
        model(set.x[i]!, b, row);
        return Array.from(row);
      },
      maxIterations,
      errorTolerance: 0,
    }).parameterValues;
  } catch {
    return [];
  }
}
