/**
 * Invented truths for the study of curve families: densities over log exposure, most of them
 * outside every family, so that no family is judged on its own ground alone. Each is a smooth
 * rising function on log exposures -3 to 0 with a speed point near -2.2.
 */

/** A curve that is known exactly. */
export interface Truth {
  readonly name: string;
  readonly density: (logExposure: number) => number;
}

const softplus = (z: number): number =>
  z > 0 ? z + Math.log1p(Math.exp(-z)) : Math.log1p(Math.exp(z));

const bend = (x: number, centre: number, width: number): number =>
  width * softplus((x - centre) / width);

const toeShoulder = (
  x: number,
  [minimum, slope, toe, toeWidth, shoulder, shoulderWidth]: readonly [
    number,
    number,
    number,
    number,
    number,
    number,
  ],
): number =>
  x === -Infinity
    ? minimum
    : minimum + slope * (bend(x, toe, toeWidth) - bend(x, shoulder, shoulderWidth));

/**
 * Grains whose sensitivities are spread log-normally, each made developable by one hit: the mean
 * of 1 - exp(-s H) over ln s, by the trapezium rule.
 */
const grains = (x: number, centre: number, spread: number): number => {
  if (x === -Infinity) return 0;
  let sum = 0;
  let weights = 0;
  for (let z = -4; z <= 4; z += 0.1) {
    const weight = Math.exp(-0.5 * z * z);
    weights += weight;
    sum += weight * -Math.expm1(-(10 ** (x - centre + spread * z)));
  }
  return sum / weights;
};

/** A hyperbola with a level and a sloping asymptote: its toe dies away as 1 / distance. */
const hyperbola = (x: number, centre: number, bendRadius: number): number =>
  x === -Infinity ? 0 : (x - centre + Math.hypot(x - centre, 2 * bendRadius)) / 2;

/** The truths of the study. */
export const TRUTHS: readonly Truth[] = [
  {
    name: 'toe-shoulder',
    density: (x) => toeShoulder(x, [0.1, 0.65, -2.3, 0.15, -0.45, 0.22]),
  },
  { name: 'grain mixture', density: (x) => 0.15 + 2.1 * grains(x, -1.15, 0.5) },
  {
    name: 'hyperbolic toe',
    density: (x) => 0.12 + 0.62 * hyperbola(x, -2.25, 0.1),
  },
  {
    name: 'two emulsions',
    density: (x) =>
      0.2 +
      (x === -Infinity
        ? 0
        : 0.55 / (1 + Math.exp(-(x + 1.9) / 0.17)) + 0.85 / (1 + Math.exp(-(x + 0.7) / 0.24))),
  },
  {
    name: 'stained',
    density: (x) => {
      const silver = toeShoulder(x, [0, 0.5, -2.35, 0.2, -0.6, 0.25]);
      return 0.25 + silver + 0.3 * (1 - Math.exp(-1.5 * silver));
    },
  },
  { name: 'steep', density: (x) => toeShoulder(x, [0.08, 1.5, -2.1, 0.1, -0.75, 0.12]) },
  {
    name: 'slightly kinked',
    density: (x) =>
      0.14 +
      (x === -Infinity
        ? 0
        : 0.55 * bend(x, -2.35, 0.14) + 0.17 * bend(x, -1.3, 0.05) - 0.5 * bend(x, -0.25, 0.15)),
  },
  {
    name: 'early shoulder',
    density: (x) => toeShoulder(x, [0.12, 0.8, -2.3, 0.16, -1.15, 0.3]),
  },
  {
    name: 'error function',
    density: (x) => 0.1 + (x === -Infinity ? 0 : 1.7 * normalShare((x + 1.25) / 0.72)),
  },
  {
    name: 'long straight part',
    density: (x) => 0.18 + 0.7 * bend(x, -2.3, 0.09) * (x === -Infinity ? 0 : 1),
  },
];

/** Normal distribution function by its series and continued form, to 1e-12. */
function normalShare(z: number): number {
  // Integrates the density from 0 by Simpson's rule with 400 cells; |z| stays below 6.
  const cells = 400;
  const h = z / cells;
  let sum = 0;
  for (let k = 0; k <= cells; k++) {
    const weight = k === 0 || k === cells ? 1 : k % 2 === 1 ? 4 : 2;
    sum += weight * Math.exp(-0.5 * (k * h) ** 2);
  }
  return 0.5 + (sum * h) / 3 / Math.sqrt(2 * Math.PI);
}
