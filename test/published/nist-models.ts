/**
 * The model functions of the NIST nonlinear regression sets, with analytic derivatives.
 *
 * Sources: [NIST-STRD] the function printed in each file. Deviations: Nelson is fitted to the
 * logarithm of its response, as its file asks.
 */

/** A model of the predictors `x`: writes the derivatives by b and returns the value. */
export type NistModel = (x: readonly number[], b: ArrayLike<number>, out: Float64Array) => number;

const exponentialRise: NistModel = ([x = 0], b, out) => {
  const rest = Math.exp(-b[1]! * x);
  out[0] = 1 - rest;
  out[1] = b[0]! * x * rest;
  return b[0]! * (1 - rest);
};

const chwirut: NistModel = ([x = 0], b, out) => {
  const below = b[1]! + b[2]! * x;
  const value = Math.exp(-b[0]! * x) / below;
  out[0] = -x * value;
  out[1] = -value / below;
  out[2] = (-x * value) / below;
  return value;
};

const lanczos: NistModel = ([x = 0], b, out) => {
  let sum = 0;
  for (let k = 0; k < 6; k += 2) {
    const decay = Math.exp(-b[k + 1]! * x);
    out[k] = decay;
    out[k + 1] = -x * b[k]! * decay;
    sum += b[k]! * decay;
  }
  return sum;
};

const gauss: NistModel = ([x = 0], b, out) => {
  const decay = Math.exp(-b[1]! * x);
  out[0] = decay;
  out[1] = -x * b[0]! * decay;
  let sum = b[0]! * decay;
  for (const k of [2, 5]) {
    const z = (x - b[k + 1]!) / b[k + 2]!;
    const bell = Math.exp(-z * z);
    out[k] = bell;
    out[k + 1] = (2 * b[k]! * bell * z) / b[k + 2]!;
    out[k + 2] = (2 * b[k]! * bell * z * z) / b[k + 2]!;
    sum += b[k]! * bell;
  }
  return sum;
};

/** A quotient of polynomials with a denominator of 1 + ...; `numerator` coefficients above. */
const quotient =
  (numerator: number): NistModel =>
  ([x = 0], b, out) => {
    let above = 0;
    let below = 1;
    for (let k = numerator - 1; k >= 0; k--) above = above * x + b[k]!;
    for (let k = numerator; k < b.length; k++) below += b[k]! * x ** (k - numerator + 1);
    const value = above / below;
    for (let k = 0; k < numerator; k++) out[k] = x ** k / below;
    for (let k = numerator; k < b.length; k++) {
      out[k] = (-value * x ** (k - numerator + 1)) / below;
    }
    return value;
  };

const enso: NistModel = ([x = 0], b, out) => {
  const turn = 2 * Math.PI * x;
  const year = turn / 12;
  out[0] = 1;
  out[1] = Math.cos(year);
  out[2] = Math.sin(year);
  let sum = b[0]! + b[1]! * out[1] + b[2]! * out[2];
  for (const k of [3, 6]) {
    const phase = turn / b[k]!;
    const [cosine, sine] = [Math.cos(phase), Math.sin(phase)];
    out[k] = ((b[k + 1]! * sine - b[k + 2]! * cosine) * phase) / b[k]!;
    out[k + 1] = cosine;
    out[k + 2] = sine;
    sum += b[k + 1]! * cosine + b[k + 2]! * sine;
  }
  return sum;
};

/** The model of each set, by the name of its file. */
export const NIST_MODELS: Readonly<Record<string, NistModel>> = {
  Misra1a: exponentialRise,
  BoxBOD: exponentialRise,
  Chwirut1: chwirut,
  Chwirut2: chwirut,
  Lanczos1: lanczos,
  Lanczos2: lanczos,
  Lanczos3: lanczos,
  Gauss1: gauss,
  Gauss2: gauss,
  Gauss3: gauss,
  DanWood: ([x = 0], b, out) => {
    const power = x ** b[1]!;
    out[0] = power;
    out[1] = b[0]! * power * Math.log(x);
    return b[0]! * power;
  },
  Misra1b: ([x = 0], b, out) => {
    const root = 1 + (b[1]! * x) / 2;
    out[0] = 1 - 1 / (root * root);
    out[1] = (b[0]! * x) / (root * root * root);
    return b[0]! * out[0];
  },
  Kirby2: quotient(3),
  Hahn1: quotient(4),
  Thurber: quotient(4),
  Nelson: ([time = 0, temperature = 0], b, out) => {
    const growth = Math.exp(-b[2]! * temperature);
    out[0] = 1;
    out[1] = -time * growth;
    out[2] = b[1]! * time * temperature * growth;
    return b[0]! - b[1]! * time * growth;
  },
  MGH17: ([x = 0], b, out) => {
    const first = Math.exp(-x * b[3]!);
    const second = Math.exp(-x * b[4]!);
    out[0] = 1;
    out[1] = first;
    out[2] = second;
    out[3] = -x * b[1]! * first;
    out[4] = -x * b[2]! * second;
    return b[0]! + b[1]! * first + b[2]! * second;
  },
  Misra1c: ([x = 0], b, out) => {
    const inside = 1 + 2 * b[1]! * x;
    out[0] = 1 - inside ** -0.5;
    out[1] = b[0]! * x * inside ** -1.5;
    return b[0]! * out[0];
  },
  Misra1d: ([x = 0], b, out) => {
    const below = 1 + b[1]! * x;
    out[0] = (b[1]! * x) / below;
    out[1] = (b[0]! * x) / (below * below);
    return b[0]! * out[0];
  },
  Roszman1: ([x = 0], b, out) => {
    const distance = x - b[3]!;
    const norm = Math.PI * (distance * distance + b[2]! * b[2]!);
    out[0] = 1;
    out[1] = -x;
    out[2] = -distance / norm;
    out[3] = -b[2]! / norm;
    return b[0]! - b[1]! * x - Math.atan(b[2]! / distance) / Math.PI;
  },
  ENSO: enso,
  MGH09: ([x = 0], b, out) => {
    const above = x * x + x * b[1]!;
    const below = x * x + x * b[2]! + b[3]!;
    const value = (b[0]! * above) / below;
    out[0] = above / below;
    out[1] = (b[0]! * x) / below;
    out[2] = (-value * x) / below;
    out[3] = -value / below;
    return value;
  },
  Rat42: ([x = 0], b, out) => {
    const e = Math.exp(b[1]! - b[2]! * x);
    const value = b[0]! / (1 + e);
    out[0] = 1 / (1 + e);
    out[1] = (-value * e) / (1 + e);
    out[2] = (value * e * x) / (1 + e);
    return value;
  },
  Rat43: ([x = 0], b, out) => {
    const e = Math.exp(b[1]! - b[2]! * x);
    const power = (1 + e) ** (-1 / b[3]!);
    const value = b[0]! * power;
    out[0] = power;
    out[1] = (-value * e) / (b[3]! * (1 + e));
    out[2] = (value * e * x) / (b[3]! * (1 + e));
    out[3] = (value * Math.log1p(e)) / (b[3]! * b[3]!);
    return value;
  },
  MGH10: ([x = 0], b, out) => {
    const below = x + b[2]!;
    const e = Math.exp(b[1]! / below);
    out[0] = e;
    out[1] = (b[0]! * e) / below;
    out[2] = (-b[0]! * e * b[1]!) / (below * below);
    return b[0]! * e;
  },
  Eckerle4: ([x = 0], b, out) => {
    const z = (x - b[2]!) / b[1]!;
    const bell = Math.exp(-0.5 * z * z) / b[1]!;
    out[0] = bell;
    out[1] = (b[0]! * bell * (z * z - 1)) / b[1]!;
    out[2] = (b[0]! * bell * z) / b[1]!;
    return b[0]! * bell;
  },
  Bennett5: ([x = 0], b, out) => {
    const inside = b[1]! + x;
    const power = inside ** (-1 / b[2]!);
    out[0] = power;
    out[1] = (-b[0]! * power) / (b[2]! * inside);
    out[2] = (b[0]! * power * Math.log(inside)) / (b[2]! * b[2]!);
    return b[0]! * power;
  },
};
