/**
 * Invented variable-contrast papers for the study of mixed light: print density over the exposures of
 * hard and soft light, most of them outside the form that is fitted, so that it is not judged on its own
 * ground alone. No licence-clear set of measured curves under mixed light was found.
 */

/** A paper whose density is known under every mixture. */
export interface MixtureTruth {
  readonly name: string;
  readonly density: (hardLogExposure: number, softLogExposure: number) => number;
}

interface Layer {
  readonly share: number;
  readonly hardLogSpeed: number;
  readonly softLogSpeed: number;
  /** Response to log10 exposure, 0 to 1. */
  readonly response: (x: number) => number;
}

const logistic = (k: number) => (x: number) => 1 / (1 + Math.exp(-k * x));
const lopsided = (k: number, m: number) => (x: number) => logistic(k)(x) ** m;
/** Toe and shoulder about a straight part. */
const straight = (half: number, width: number) => (x: number) => {
  const soft = (t: number) => (t > 30 ? t : Math.log1p(Math.exp(t)));
  return (width * (soft((x + half) / width) - soft((x - half) / width))) / (2 * half);
};

const paper =
  (layers: readonly Layer[]) =>
  (hardLogExposure: number, softLogExposure: number): number => {
    let density = 0.06;
    for (const { share, hardLogSpeed, softLogSpeed, response } of layers) {
      const light = 10 ** (hardLogSpeed + hardLogExposure) + 10 ** (softLogSpeed + softLogExposure);
      density += share * (light > 0 ? response(Math.log10(light)) : 0);
    }
    return density;
  };

const even = (
  softLogSpeeds: readonly number[],
  response: (i: number) => (x: number) => number,
  hardLogSpeeds: readonly number[] = [],
): Layer[] =>
  softLogSpeeds.map((softLogSpeed, i) => ({
    share: 2.05 / softLogSpeeds.length,
    hardLogSpeed: hardLogSpeeds[i] ?? 0.3,
    softLogSpeed,
    response: response(i),
  }));

export const MIXTURE_TRUTHS: readonly MixtureTruth[] = [
  {
    name: 'three alike layers (the form itself)',
    density: paper(even([0.2, -0.55, -1.25], () => logistic(12))),
  },
  { name: 'two layers', density: paper(even([0.2, -1.05], () => logistic(9))) },
  { name: 'four layers', density: paper(even([0.25, -0.3, -0.8, -1.4], () => logistic(13))) },
  {
    name: 'three of unequal contrast',
    density: paper(even([0.2, -0.55, -1.25], (i) => logistic([8, 12, 17][i] ?? 12))),
  },
  {
    name: 'three of unequal blue speed',
    density: paper(even([0.2, -0.55, -1.25], () => logistic(12), [0.4, 0.25, 0.12])),
  },
  {
    name: 'straight-lined, unequal shares',
    density: paper(
      [0.2, -0.5, -1.2].map((softLogSpeed, i) => ({
        share: [0.9, 0.65, 0.5][i] ?? 0,
        hardLogSpeed: 0.3,
        softLogSpeed,
        response: straight(0.22, 0.06),
      })),
    ),
  },
  {
    name: 'two lopsided of unequal contrast',
    density: paper(even([0.15, -0.95], (i) => lopsided([8, 13][i] ?? 10, [0.6, 1.5][i] ?? 1))),
  },
];
