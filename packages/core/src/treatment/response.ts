/**
 * How far the change has gone at a dose: R in [0, 1], each family by its half dose E50 and, where
 * it has one, a steepness h.
 *
 *   first-order   R = 1 - 2^(-E/E50)
 *   hill          R = 1 / (1 + (E50/E)^h)
 *   weibull       R = 1 - 2^(-(E/E50)^h)
 *   parabolic     R = (E / 4 E50)^(1/2), complete at E = 4 E50
 *
 * Sources: [RITZ2015] for the log-logistic and Weibull forms, [THALMANN2016] for diffusion-limited
 * (parabolic) conversion of silver. Deviations: all are stated by the half dose, so that one figure
 * means the same in every family.
 */
import { InvalidArgumentError, OutOfDomainError } from '../errors.ts';

/** Families of response. */
export const RESPONSE_FAMILIES = ['first-order', 'hill', 'weibull', 'parabolic'] as const;

export type ResponseFamily = (typeof RESPONSE_FAMILIES)[number];

/** A response with its parameters. `steepness` counts for hill and weibull only. */
export interface Response {
  readonly family: ResponseFamily;
  /** Dose at which half of the change is done, > 0. */
  readonly halfDose: number;
  readonly steepness: number;
}

/** R and its derivatives by dose, half dose and steepness. */
export interface ResponseDerivatives {
  readonly value: number;
  readonly byDose: number;
  readonly byHalfDose: number;
  readonly bySteepness: number;
}

/**
 * Part of the change that is done at a dose.
 *
 * @param dose - dose, zero or more
 * @param response - family and parameters
 * @returns R, 0 to 1
 * @throws InvalidArgumentError if the dose is negative, or half dose or steepness not above zero
 * @example
 * responseAt(1, { family: 'first-order', halfDose: 1, steepness: 1 }); // => 0.5
 */
export function responseAt(dose: number, response: Response): number {
  return responseDerivatives(dose, response).value;
}

/**
 * The same with derivatives.
 *
 * @throws InvalidArgumentError if the dose is negative, or half dose or steepness not above zero
 */
export function responseDerivatives(dose: number, response: Response): ResponseDerivatives {
  const { family, halfDose, steepness } = response;
  check('responseAt', response);
  if (!(dose >= 0 && dose < Infinity)) {
    throw new InvalidArgumentError('responseAt', 'dose', dose, 'zero or more');
  }
  if (dose === 0) return { value: 0, byDose: 0, byHalfDose: 0, bySteepness: 0 };
  const ratio = dose / halfDose;
  const [value, byRatio, bySteepness] = shape(family, ratio, steepness);
  return {
    value,
    byDose: byRatio / halfDose,
    byHalfDose: (-byRatio * ratio) / halfDose,
    bySteepness,
  };
}

/**
 * Dose at which a part of the change is done.
 *
 * @param part - R, in [0, 1); 1 is allowed for the parabolic family alone
 * @returns dose
 * @throws OutOfDomainError if the family never reaches the part
 * @throws InvalidArgumentError if half dose or steepness are not above zero
 */
export function doseForResponse(part: number, response: Response): number {
  const { family, halfDose, steepness } = response;
  check('doseForResponse', response);
  if (!(part >= 0 && (part < 1 || (family === 'parabolic' && part === 1)))) {
    throw new OutOfDomainError('doseForResponse', 'part', part, [0, 1]);
  }
  switch (family) {
    case 'first-order':
      return -halfDose * Math.log2(1 - part) || 0;
    case 'hill':
      return halfDose * (part / (1 - part)) ** (1 / steepness);
    case 'weibull':
      return halfDose * (-Math.log2(1 - part) || 0) ** (1 / steepness);
    case 'parabolic':
      return 4 * halfDose * part * part;
  }
}

/** R, dR/d(E/E50), dR/dh at a ratio above zero. */
function shape(family: ResponseFamily, z: number, h: number): [number, number, number] {
  switch (family) {
    case 'first-order': {
      const left = 2 ** -z;
      return [1 - left, Math.LN2 * left, 0];
    }
    case 'hill': {
      const power = z ** h;
      if (power === Infinity) return [1, 0, 0];
      const square = (1 + power) ** 2;
      return [power / (1 + power), (h * power) / z / square, (power * Math.log(z)) / square];
    }
    case 'weibull': {
      const power = z ** h;
      const left = Math.LN2 * 2 ** -power;
      if (left === 0) return [1, 0, 0];
      return [1 - 2 ** -power, (left * h * power) / z, left * power * Math.log(z)];
    }
    case 'parabolic': {
      const value = 0.5 * Math.sqrt(z);
      return value < 1 ? [value, 0.25 / Math.sqrt(z), 0] : [1, 0, 0];
    }
  }
}

function check(functionName: string, { halfDose, steepness }: Response): void {
  for (const [name, value] of Object.entries({ halfDose, steepness })) {
    if (!(value > 0 && value < Infinity)) {
      throw new InvalidArgumentError(functionName, name, value, 'a number above zero');
    }
  }
}
