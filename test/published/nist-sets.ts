/**
 * Reads the NIST Statistical Reference Datasets in tables/nist, and counts digits of agreement.
 *
 * Sources: [NIST-STRD]. The nonlinear files are in their original form. The linear files hold the
 * data and reference values recomputed from them by exact rational arithmetic.
 */
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import {
  leastSquares,
  linearLeastSquares,
  polynomialLeastSquares,
  type LeastSquaresFit,
  type LinearFit,
} from '@wedgebook/core';
import { NIST_MODELS } from './nist-models.ts';

const FOLDER = path.join(import.meta.dirname, 'tables', 'nist');

/** A nonlinear set with its certified values. */
export interface NistSet {
  readonly name: string;
  readonly starts: readonly [readonly number[], readonly number[]];
  readonly parameters: readonly number[];
  readonly standardDeviations: readonly number[];
  readonly residualSumOfSquares: number;
  readonly residualStandardDeviation: number;
  readonly y: readonly number[];
  readonly x: readonly (readonly number[])[];
}

/** The 27 nonlinear sets, by name. */
export function nistNonlinearSets(): NistSet[] {
  return readdirSync(FOLDER)
    .filter((file) => file.endsWith('.dat'))
    .map((file) => nistSet(path.basename(file, '.dat')));
}

function nistSet(name: string): NistSet {
  const lines = readFileSync(path.join(FOLDER, `${name}.dat`), 'latin1').split(/\r?\n/);
  const table = lines
    .map((line) => /^\s*b\d+\s*=\s*(.*)$/.exec(line)?.[1])
    .filter((rest) => rest !== undefined)
    .map((rest) => rest.trim().split(/\s+/).map(Number));
  const figure = (title: string): number =>
    Number(lines.find((line) => line.startsWith(title))?.split(':')[1]);
  const rows = lines
    .slice(60)
    .map((line) => line.trim().split(/\s+/).map(Number))
    .filter((row) => row.length > 1 && row.every(Number.isFinite));
  const logarithm = name === 'Nelson';
  return {
    name,
    starts: [table.map((row) => row[0]!), table.map((row) => row[1]!)],
    parameters: table.map((row) => row[2]!),
    standardDeviations: table.map((row) => row[3]!),
    residualSumOfSquares: figure('Residual Sum of Squares'),
    residualStandardDeviation: figure('Residual Standard Deviation'),
    y: rows.map((row) => (logarithm ? Math.log(row[0]!) : row[0]!)),
    x: rows.map((row) => row.slice(1)),
  };
}

/** Fits a set from one of its starts with the solver's default settings. */
export function fitNistSet(set: NistSet, start: readonly number[]): LeastSquaresFit {
  const model = NIST_MODELS[set.name]!;
  const row = new Float64Array(start.length);
  return leastSquares({
    residualCount: set.y.length,
    start,
    evaluate(b, residuals, jacobian) {
      set.x.forEach((x, i) => {
        residuals[i] = model(x, b, row) - set.y[i]!;
        jacobian.set(row, i * start.length);
      });
    },
  });
}

/** A linear set: observations, predictors and the exact least-squares solution. */
export interface NistLinearSet {
  readonly name: string;
  readonly y: readonly number[];
  /** Predictors by row. */
  readonly x: readonly (readonly number[])[];
  readonly form: 'polynomial' | 'with-intercept' | 'no-intercept';
  readonly coefficients: readonly number[];
  readonly standardDeviations: readonly number[];
  readonly residualStandardDeviation: number;
}

/** The 11 linear sets, by name. */
export function nistLinearSets(): NistLinearSet[] {
  const folder = path.join(FOLDER, 'linear');
  return readdirSync(folder).map((file) => {
    const lines = readFileSync(path.join(folder, file), 'utf8').split('\n');
    const reference = lines
      .map((line) => /^# B\d+ (\S+) (\S+)/.exec(line))
      .filter((match) => match !== null);
    const rows = lines
      .filter((line) => /^\s*[-\d.]/.test(line))
      .map((line) => line.trim().split(/\s+/).map(Number));
    const model = lines.find((line) => line.startsWith('# Model'))!;
    const form = model.includes('^')
      ? 'polynomial'
      : model.includes('B0')
        ? 'with-intercept'
        : 'no-intercept';
    return {
      name: path.basename(file, '.dat'),
      y: rows.map((row) => row[0]!),
      x: rows.map((row) => row.slice(1)),
      form,
      coefficients: reference.map((match) => Number(match[1])),
      standardDeviations: reference.map((match) => Number(match[2])),
      residualStandardDeviation: Number(
        lines.find((line) => line.startsWith('# residual_sd'))!.split(' ')[2],
      ),
    };
  });
}

/** Solves a linear set. */
export function fitNistLinearSet(set: NistLinearSet): LinearFit {
  if (set.form === 'polynomial') {
    const x = set.x.map((row) => row[0]!);
    return polynomialLeastSquares(x, set.y, set.coefficients.length - 1);
  }
  const columns = set.x[0]!.map((_, j) => ({ values: set.x.map((row) => row[j]!) }));
  const ones = { values: set.y.map(() => 1) };
  return linearLeastSquares(set.form === 'with-intercept' ? [ones, ...columns] : columns, set.y);
}

/**
 * Least number of digits that agree, over a list; at most `most`, the digits certified. A certified
 * zero counts by the absolute error.
 */
export function digits(
  found: readonly (number | null)[],
  certified: readonly number[],
  most = 11,
): number {
  return certified.reduce((least, value, j) => {
    const got = found[j] ?? NaN;
    const error = value === 0 ? Math.abs(got) : Math.abs((got - value) / value);
    const count = error === 0 ? Infinity : -Math.log10(error);
    return Math.min(least, Number.isNaN(count) ? 0 : Math.max(0, count), most);
  }, most);
}
