/**
 * Invented films for the study of the development surface: density over log exposure and minutes,
 * most of them outside the form that is fitted, so that it is not judged on its own ground alone.
 * No licence-clear family of measured curves at several development times was found.
 */

/** A film whose density is known at every exposure and time. */
export interface FilmTruth {
  readonly name: string;
  readonly density: (logExposure: number, minutes: number) => number;
}

const softplus = (z: number): number =>
  z > 0 ? z + Math.log1p(Math.exp(-z)) : Math.log1p(Math.exp(z));
const bend = (x: number, centre: number, width: number): number =>
  x === -Infinity ? 0 : width * softplus((x - centre) / width);
const rise = (minutes: number, rate: number, delay: number): number =>
  1 - Math.exp(-rate * (minutes - delay));

/** Grains of log-normally spread sensitivity, one hit each: share made developable. */
function grains(x: number, centre: number, spread: number): number {
  if (x === -Infinity) return 0;
  let sum = 0;
  let weights = 0;
  for (let z = -4; z <= 4; z += 0.2) {
    const weight = Math.exp(-0.5 * z * z);
    weights += weight;
    sum += weight * -Math.expm1(-(10 ** (x - centre + spread * z)));
  }
  return sum / weights;
}

export const FILM_TRUTHS: readonly FilmTruth[] = [
  {
    name: 'first-order slope',
    density: (x, t) =>
      0.1 + 0.004 * t + 0.95 * rise(t, 0.12, 0.8) * bend(x, -2.2 - 0.12 * Math.log(t / 8), 0.2),
  },
  {
    name: 'log-linear slope, toe that narrows',
    density: (x, t) =>
      0.12 +
      0.003 * t +
      (0.05 + 0.26 * Math.log(t)) *
        (bend(x, -2.15 - 0.1 * Math.log(t / 8), 0.24 * (t / 8) ** -0.3) - bend(x, -0.5, 0.25)),
  },
  {
    name: 'grain mixture, speed with time',
    density: (x, t) =>
      0.11 +
      0.05 * rise(t, 0.05, 0) +
      2.6 * rise(t, 0.11, 0.5) * grains(x, -1.05 - 0.2 * Math.log(t / 8), 0.5),
  },
  {
    name: 'highlights develop faster',
    density: (x, t) =>
      0.12 +
      0.003 * t +
      1.9 * grains(x, -1.2, 0.45) * rise(t, 0.09 + 0.06 * grains(x, -1.0, 0.4), 0.6),
  },
  {
    name: 'two emulsions of unlike rate',
    density: (x, t) =>
      0.15 +
      0.004 * t +
      0.7 * rise(t, 0.25, 0.6) * grains(x, -1.75, 0.3) +
      1.3 * rise(t, 0.08, 1) * grains(x, -0.7, 0.35),
  },
];
