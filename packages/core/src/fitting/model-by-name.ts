/**
 * Every built-in model by the name that the command and the document use.
 */
import type { CurveModel, Model } from './model.ts';
import { exponentialRise } from './models/exponential-rise.ts';
import { hurterDriffield } from './models/hurter-driffield.ts';
import { logLogistic3 } from './models/log-logistic-3.ts';
import { logLogistic4 } from './models/log-logistic-4.ts';
import { logistic4 } from './models/logistic-4.ts';
import { logistic5 } from './models/logistic-5.ts';
import { michaelisMenten } from './models/michaelis-menten.ts';
import { straightLine } from './models/straight-line.ts';
import { toeOnly } from './models/toe-only.ts';
import { toeShoulder } from './models/toe-shoulder.ts';
import { weibull4 } from './models/weibull-4.ts';

/** The families of characteristic curves with parameters. */
export const CURVE_MODELS: readonly CurveModel[] = [
  toeShoulder,
  toeOnly,
  logistic4,
  logistic5,
  hurterDriffield,
];

/** Every built-in model, as `fit` offers them. */
export const MODELS: readonly Model[] = [
  straightLine,
  exponentialRise,
  logLogistic3,
  logLogistic4,
  weibull4,
  michaelisMenten,
  ...CURVE_MODELS,
];

/**
 * The built-in model of that name, or null.
 *
 * @example
 * modelByName('straight-line')?.parameterNames; // => ['intercept', 'slope']
 */
export function modelByName(name: string): Model | null {
  return MODELS.find((model) => model.name === name) ?? null;
}
