/** A fitted model, for reading. */
import type { Model, ModelFit } from '@wedgebook/core';
import { FIT_WORDS as W } from '../text.ts';
import type { Prediction } from '../verbs/fit.ts';
import { alignedTable, factList } from './aligned-table.ts';
import { significant } from './figures.ts';
import { warningLines, type ShownWarning } from './warnings.ts';

export interface FitReportParts {
  readonly model: Model;
  readonly fit: ModelFit;
  readonly rows: number;
  readonly covariance: readonly (readonly number[])[] | null;
  readonly predictions: readonly Prediction[];
  readonly warnings: readonly ShownWarning[];
  readonly robust: boolean;
}

const DIGITS = 10;

/** Parameters with errors, residuals, and what else was asked for. */
export function fitText(parts: FitReportParts): string {
  const { model, fit, rows, covariance, predictions, warnings, robust } = parts;
  const right = (titles: readonly string[]) =>
    titles.map((title, index) => ({ title, align: index === 0 ? 'left' : 'right' }) as const);
  const parameters = alignedTable(
    right(W.columns),
    fit.parameters.map((value, index) => [
      model.parameterNames[index] ?? '',
      significant(value, DIGITS),
      fit.atBound[index] === true
        ? W.atBound
        : significant(fit.standardErrors[index] ?? null, DIGITS),
    ]),
    '  ',
  );
  const facts = factList([
    [W.residual, significant(fit.residualStandardDeviation, DIGITS)],
    [W.freedom, String(fit.degreesOfFreedom)],
    [W.sum, significant(fit.residualSumOfSquares, DIGITS)],
  ]);
  const matrix =
    covariance === null
      ? ''
      : `${W.covariance}\n${alignedTable(
          right(['', ...model.parameterNames]),
          covariance.map((row, index) => [
            model.parameterNames[index] ?? '',
            ...row.map((value) => significant(value, 6)),
          ]),
          '  ',
        )}`;
  const table = alignedTable(
    W.predictions.map((title) => ({ title, align: 'right' }) as const),
    predictions.map(({ x, value, standardError, interval }) => [
      significant(x),
      significant(value, DIGITS),
      significant(standardError, DIGITS),
      significant(interval?.[0] ?? null, DIGITS),
      significant(interval?.[1] ?? null, DIGITS),
    ]),
    '  ',
  );
  return [
    `${W.title(model.name, rows)}${robust ? `; ${W.robust}` : ''}\n`,
    parameters,
    facts,
    matrix,
    table,
    warningLines(warnings),
  ].join('');
}
