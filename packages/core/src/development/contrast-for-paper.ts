/**
 * The contrast that normal development must reach for the user's own paper, light and subjects.
 *
 *   image range in stops = S - log2 f              S stops of subject, flare factor f
 *   contrast             = exposure scale / Q / (log10 2 · image range)
 *   N+n                  = contrast · image range / (image range - n)
 *   var contrast         = contrast² ((s_scale / scale)² + (s_Q / Q)²)
 *
 * Sources: [JONES1920] the gradient that scene, flare and paper ask for; [JC1941] flare factors;
 * [Seber2003] section 5.1, the delta method. Deviations: one flare factor serves all subject ranges,
 * and any measure of contrast is asked to be this average gradient over the image range.
 */
import { InvalidArgumentError } from '../errors.ts';
import { combinedError } from '../estimate.ts';
import { LOG_STOP } from '../readings/index.ts';
import { requiredGradient } from './development-plan.ts';

export interface SceneAndPaper {
  /** Log exposure scale of the paper. */
  readonly exposureScale: number;
  /** Standard error of the scale where it was measured. */
  readonly exposureScaleError?: number | null;
  /** Subject's luminance range that should fill it, stops from textured shadow to highlight. */
  readonly subjectRangeStops: number;
  /** Range of the subject over that of its image on the film; 1 (no flare) unless given. */
  readonly flareFactor?: number;
  /** Density the paper sees over diffuse density; 1 unless given. */
  readonly callierFactor?: number;
  /** Standard error of the factor where it was measured. */
  readonly callierFactorError?: number | null;
}

export interface ContrastForPaper {
  /** Average gradient of normal development. */
  readonly contrast: number;
  /** Standard error by those of scale and factor; null where neither has any. */
  readonly contrastError: number | null;
  /** Stops of image on the film, the textural scale of the plan. */
  readonly imageStops: number;
  /** Diffuse density range of a negative that fits. */
  readonly densityRange: number;
}

/**
 * Contrast of normal development for a paper.
 *
 * @param scene - paper, subject range, flare, light
 * @returns the contrast, and the image range to give `developmentPlan` as its textural stops
 * @throws InvalidArgumentError if a value is out of range or flare swallows the subject
 * @source [JONES1920]
 * @example
 * contrastForPaper({ exposureScale: 1.05, subjectRangeStops: 7 }).contrast.toFixed(3); // => '0.498'
 */
export function contrastForPaper(scene: SceneAndPaper): ContrastForPaper {
  const { exposureScale, subjectRangeStops, flareFactor = 1, callierFactor = 1 } = scene;
  const { exposureScaleError = null, callierFactorError = null } = scene;
  const refuse = (name: string, value: number, expected: string): never => {
    throw new InvalidArgumentError('contrastForPaper', name, value, expected);
  };
  if (!(subjectRangeStops > 0 && subjectRangeStops <= 20)) {
    refuse('subjectRangeStops', subjectRangeStops, 'in (0, 20]');
  }
  if (!(flareFactor >= 1 && flareFactor < 100)) refuse('flareFactor', flareFactor, 'in [1, 100)');
  if (!(callierFactor > 0 && callierFactor < 5))
    refuse('callierFactor', callierFactor, 'in (0, 5)');
  for (const [name, error] of Object.entries({ exposureScaleError, callierFactorError })) {
    if (error !== null && !(error >= 0 && error < Infinity)) refuse(name, error, 'zero or more');
  }
  const densityRange = exposureScale / callierFactor;
  const contrast = requiredGradient(
    densityRange,
    LOG_STOP * subjectRangeStops,
    Math.log10(flareFactor),
  );
  const relative = combinedError(
    exposureScaleError === null ? null : exposureScaleError / exposureScale,
    callierFactorError === null ? null : callierFactorError / callierFactor,
  );
  return {
    contrast,
    contrastError: relative === null ? null : contrast * relative,
    imageStops: subjectRangeStops - Math.log2(flareFactor),
    densityRange,
  };
}
