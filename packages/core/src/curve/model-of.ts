/**
 * The model by which a curve was fitted, to fit it again.
 */
import {
  hurterDriffield,
  logistic4,
  logistic5,
  toeOnly,
  toeShoulder,
  type CurveModel,
} from '../fitting/index.ts';
import type { NamedFunction } from './function-of.ts';

/** The families that a model with start and bounds fits; the others are solved for at once. */
const FITTED = {
  'logistic-4': logistic4,
  'logistic-5': logistic5,
  'hurter-driffield': hurterDriffield,
} as const;

/**
 * The model whose parameters a curve holds.
 *
 * @param curve - a fitted curve; a `toe-shoulder` curve with four parameters has no shoulder
 * @returns null where the curve is not of a family of parameters
 */
export function modelOf({ family, parameters }: NamedFunction): CurveModel | null {
  if (family === 'monotone-smooth' || family === 'as-drawn') return null;
  if (family !== 'toe-shoulder') return FITTED[family];
  return parameters.length === toeOnly.parameterNames.length ? toeOnly : toeShoulder;
}
