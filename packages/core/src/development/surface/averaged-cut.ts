/**
 * A cut of the surface, averaged over the two laws of its slope.
 *
 *   p = Σ w_i p_i,   C = Σ w_i (C_i + (p_i - p)(p_i - p)')
 *
 * p are the parameters of the curve at one time, so that the error includes the choice of the law.
 *
 * Sources: [BA2002] section 4.3.2, model averaging with unconditional errors. Deviations: weights by
 * the errors of left-out strips, see `law-weight.ts`.
 */
import type { ContrastFamily } from '../contrast-model.ts';
import { cutAt, cutCovariance, leastSeparation, type SurfaceFrame } from './surface-model.ts';

/** One law with its parameters, and its share. */
export interface WeightedLaw {
  readonly law: ContrastFamily;
  readonly parameters: ArrayLike<number>;
  readonly covariance: readonly number[];
  readonly weight: number;
}

export interface AveragedCut {
  /** Of a toe-shoulder curve. */
  readonly parameters: readonly number[];
  /** Row-major. */
  readonly covariance: readonly number[];
}

/**
 * The averaged cut at a time.
 *
 * @param frame - shoulder, reference temperature, τ0
 * @param laws - the one in use first
 * @param minutes - development time, > 0
 * @param celsius - temperature
 * @returns null where the law in use holds no rising curve; a rival that holds none is left out
 */
export function averagedCut(
  frame: Omit<SurfaceFrame, 'law'>,
  laws: readonly WeightedLaw[],
  minutes: number,
  celsius: number,
): AveragedCut | null {
  const cuts = laws.map(({ law, parameters, covariance, weight }) => {
    const cut = cutAt({ ...frame, law }, parameters, minutes, celsius);
    return { cut, covariance, weight, sound: rises(cut.parameters) };
  });
  if (cuts[0]?.sound !== true) return null;
  const sound = cuts.filter((one) => one.sound);
  const total = sound.reduce((sum, { weight }) => sum + weight, 0);
  const size = cuts[0].cut.parameters.length;
  const parameters = Array.from({ length: size }, (_, i) =>
    sound.reduce((sum, { cut, weight }) => sum + (weight / total) * (cut.parameters[i] ?? 0), 0),
  );
  const covariance = Array.from({ length: size * size }, () => 0);
  for (const { cut, covariance: own, weight } of sound) {
    const ofCut = cutCovariance(cut, own);
    const off = cut.parameters.map((value, i) => value - (parameters[i] ?? 0));
    for (let i = 0; i < size; i++) {
      for (let j = 0; j < size; j++) {
        const at = i * size + j;
        const spread = (off[i] ?? 0) * (off[j] ?? 0);
        covariance[at] = (covariance[at] ?? 0) + (weight / total) * ((ofCut[at] ?? 0) + spread);
      }
    }
  }
  return { parameters, covariance };
}

/** Whether a cut rises and nowhere dips. */
function rises(parameters: readonly number[]): boolean {
  const [, slope = 0, toe = 0, width = 0, shoulder, shoulderWidth = 0] = parameters;
  if (!(slope > 0)) return false;
  return shoulder === undefined || shoulder - toe >= leastSeparation(width, shoulderWidth);
}
