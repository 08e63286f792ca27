/** `fit`: any built-in model to two columns of a table. */
import {
  fitModel,
  robustLeastSquares,
  MODELS,
  modelByName,
  predictWithBand,
  InvalidArgumentError,
  warning,
  type Estimate,
  type FitModelOptions,
  type Model,
  type ModelFit,
} from '@wedgebook/core';
import type { Arguments } from '../input/arguments.ts';
import { onlyFile } from '../input/only-file.ts';
import { fileName, readColumns } from '../input/read-file.ts';
import { fitText } from '../output/fit-text.ts';
import { shownWarnings } from '../output/warnings.ts';
import { FIT_WORDS, USAGE } from '../text.ts';
import { UsageError } from '../usage-error.ts';
import { inputFault, type InputError, type Place } from '@wedgebook/notebook';
import type { Verb } from './verb.ts';

export interface Prediction extends Estimate {
  readonly x: number;
  /** 95 % interval of the fitted function there; null without an error. */
  readonly interval: readonly [number, number] | null;
}

const CONFIDENCE = 0.95;
/**
 * Greatest size of the numbers below which squares of residuals are lost: doubles keep their digits
 * down to 2e-308, and a residual of 1e-14 of the number must be told from none.
 */
const LEAST_SIZE = 1e-140;

export const fit: Verb = {
  options: {
    model: { type: 'string' },
    x: { type: 'string' },
    y: { type: 'string' },
    start: { type: 'string' },
    weights: { type: 'string' },
    robust: { type: 'boolean' },
    covariance: { type: 'boolean' },
    predict: { type: 'string' },
  },
  run: async (given, io) => {
    const file = onlyFile(given);
    const model = modelOf(given);
    const [xName, yName] = [given.text('x'), given.text('y')];
    if (xName === undefined || yName === undefined) throw new UsageError(USAGE.unknownColumn);
    const start = startOf(given, model);
    const at = given.numbers('predict') ?? [];
    const weightsName = given.text('weights');
    const names = weightsName === undefined ? [xName, yName] : [xName, yName, weightsName];
    const { columns, rows, incomplete } = await readColumns(file, names, io);
    const [x = [], y = [], weights] = columns;
    const place = { file: fileName(file) };
    requireDomain(model, x, (index) => ({ ...place, row: rows[index] ?? 0, column: xName }));
    if (weights !== undefined && !weights.every((weight) => weight > 0)) {
      throw inputFault.weights({ ...place, column: weightsName ?? '' });
    }
    const different = new Set(x).size;
    if (different < model.parameterNames.length) {
      const at = { ...place, column: xName };
      throw inputFault.tooFewRows(at, different, model.parameterNames.length);
    }
    const outOfReach = () => inputFault.outOfReach({ ...place, column: yName }, model.name);
    // Squares that vanish: their sum, and what judges fits by it, would be 0.
    const size = y.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
    if (size > 0 && size < LEAST_SIZE) throw outOfReach();
    const fitted = fitFrom(start, outOfReach, model, x, y, {
      ...(given.flag('robust') && { solve: robustLeastSquares }),
      ...(weights !== undefined && {
        // A weight is a weight: its reciprocal square root is the standard deviation.
        sigma: { kind: 'relative', values: weights.map((weight) => 1 / Math.sqrt(weight)) },
      }),
    });
    const warnings = shownWarnings(
      incomplete > 0 ? [warning('rows-incomplete', { count: incomplete })] : [],
      fitted.report.status === 'converged' ? [] : [warning('fit-not-converged')],
    );
    const predictions = at.map((point) => predicted(model, fitted, point));
    return {
      json: {
        model: fitted.model,
        rows: x.length,
        parameters: fitted.parameters.map((value, index) => ({
          name: model.parameterNames[index] ?? '',
          value,
          standardError: fitted.standardErrors[index] ?? null,
          ...(fitted.atBound[index] === true && { atBound: true }),
        })),
        residualStandardDeviation: fitted.residualStandardDeviation,
        degreesOfFreedom: fitted.degreesOfFreedom,
        residualSumOfSquares: fitted.residualSumOfSquares,
        covariance: covarianceRows(fitted),
        ...(at.length > 0 && { predictions }),
        status: fitted.report.status,
        iterations: fitted.report.iterations,
        loss: given.flag('robust') ? FIT_WORDS.robust : 'least squares',
        warnings,
      },
      text: () =>
        fitText({
          model,
          fit: fitted,
          rows: x.length,
          covariance: given.flag('covariance') ? covarianceRows(fitted) : null,
          predictions,
          warnings,
          robust: given.flag('robust'),
        }),
    };
  },
};

function modelOf(given: Arguments): Model {
  const name = given.choice(
    'model',
    MODELS.map((model) => model.name),
  );
  const model = name === undefined ? null : modelByName(name);
  if (model === null) {
    throw new UsageError(USAGE.needs('model', MODELS.map((one) => one.name).join(', ')));
  }
  return model;
}

function startOf(given: Arguments, model: Model): readonly number[] | undefined {
  const start = given.numbers('start');
  const { parameterNames } = model;
  if (start !== undefined && start.length !== parameterNames.length) {
    throw new UsageError(USAGE.startLength(start.length, parameterNames.length, parameterNames));
  }
  return start;
}

/** @throws {InputError} where the function has no value at an x */
function requireDomain(model: Model, x: readonly number[], place: (index: number) => Place): void {
  const { leastX = -Infinity, name } = model;
  const outside = x.findIndex((value) => value < leastX);
  if (outside < 0) return;
  throw inputFault.outsideDomain(place(outside), x[outside] ?? NaN, leastX, name);
}

function covarianceRows({
  covariance,
  parameters,
}: ModelFit): readonly (readonly number[])[] | null {
  const count = parameters.length;
  if (covariance === null) return null;
  return parameters.map((_, row) => covariance.slice(row * count, (row + 1) * count));
}

/**
 * Fits. A start that the model cannot begin from is a fault of the command line; where the model's
 * own start fails, or its answer leaves what can be computed, the numbers are at fault.
 */
function fitFrom(
  start: readonly number[] | undefined,
  outOfReach: () => InputError,
  model: Model,
  x: readonly number[],
  y: readonly number[],
  options: FitModelOptions,
): ModelFit {
  if (start === undefined) {
    try {
      const fit = fitModel(model, x, y, options);
      if (fit.parameters.every(Number.isFinite) && Number.isFinite(fit.residualSumOfSquares)) {
        return fit;
      }
    } catch (error) {
      if (!(error instanceof InvalidArgumentError && error.details['argument'] === 'start')) {
        throw error;
      }
    }
    throw outOfReach();
  }
  const outside = (): UsageError => new UsageError(USAGE.startOutside(model.parameterNames));
  if (!isWithinBounds(start, model, x, y)) throw outside();
  try {
    return fitModel(model, x, y, { ...options, start });
  } catch (error) {
    if (error instanceof InvalidArgumentError && error.details['argument'] === 'start') {
      throw outside();
    }
    throw error;
  }
}

/** Whether the model's own parameters can stand for these: the others would be moved in silence. */
function isWithinBounds(
  start: readonly number[],
  { inner }: Model,
  x: readonly number[],
  y: readonly number[],
): boolean {
  if (inner === undefined) return true;
  const own = inner.fromNatural(start);
  const { lower, upper } = inner.bounds(x, y);
  if (!own.every((value, j) => value >= (lower[j] ?? 0) && value <= (upper[j] ?? 0))) return false;
  const natural = new Float64Array(start.length);
  inner.toNatural(own, natural, new Float64Array(start.length ** 2));
  return start.every((value, j) => Math.abs((natural[j] ?? 0) - value) <= 1e-9 * Math.abs(value));
}

/** Value of the model with its standard error and its interval. */
function predicted(model: Model, fitted: ModelFit, x: number): Prediction {
  if (!(Number.isFinite(x) && Number.isFinite(model.value(x, fitted.parameters)))) {
    throw new UsageError(USAGE.predictOutside(x, model.name));
  }
  const [{ value, standardError, lower, upper }] = predictWithBand(
    model,
    fitted,
    [x],
    CONFIDENCE,
  ) as [ReturnType<typeof predictWithBand>[number]];
  const interval = lower === null || upper === null ? null : ([lower, upper] as const);
  return { x, value, standardError, interval };
}
