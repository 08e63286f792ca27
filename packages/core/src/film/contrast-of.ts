/**
 * Contrast of a film curve by the name of its measure.
 *
 *   contrast-index | gamma | gradient-…     the end points of a chord are in its name, see `chord-of.ts`
 *
 * Sources: [NNY1966] contrast index, [HD1890] gamma, [ISO6] the chord over 1.30. Deviations: none.
 */
import { estimateOn, type CharacteristicCurve } from '../curve/index.ts';
import { InvalidArgumentError } from '../errors.ts';
import type { Estimate } from '../estimate.ts';
import { averageGradientBetweenDensities, chordOver } from './average-gradients.ts';
import { chordOf } from './chord-of.ts';
import { contrastIndex } from './contrast-index.ts';
import { FARTHEST_EXTRAPOLATION, withinReadings } from './reach.ts';
import { speedPointOf } from './speed-point-of.ts';
import { steepestPart } from './steepest-part.ts';

export type ContrastMeasure = 'contrast-index' | 'gamma' | `gradient-${string}`;

/** Whether a name is one of a measure: `contrast-index`, `gamma`, or a chord as in `chordOf`. */
export function isContrastMeasure(name: string): name is ContrastMeasure {
  return name === 'contrast-index' || name === 'gamma' || chordOf(name) !== null;
}

/**
 * Contrast of a curve.
 *
 * @param curve - of a strip, or of a development surface at a time
 * @param measure - by what definition
 * @returns the contrast; null where the readings do not reach what the measure needs
 * @throws InvalidArgumentError if the measure is none of those
 */
export function contrastOf(curve: CharacteristicCurve, measure: ContrastMeasure): Estimate | null {
  if (measure === 'contrast-index') {
    return estimateOn(curve, (c) => contrastIndex(c, FARTHEST_EXTRAPOLATION)?.index ?? null);
  }
  if (measure === 'gamma') {
    return curve.family === 'as-drawn'
      ? null
      : estimateOn(curve, (c) => steepestPart(c)?.gamma ?? null);
  }
  const chord = chordOf(measure);
  if (chord === null) {
    throw new InvalidArgumentError('contrastOf', 'measure', measure, 'the name of a measure');
  }
  const from = speedPointOf(curve, chord.fromNet);
  if (from === null) return null;
  if (chord.kind === 'between') {
    return speedPointOf(curve, chord.toNet) === null
      ? null
      : averageGradientBetweenDensities(curve, chord.fromNet, chord.toNet);
  }
  const { beyond } = withinReadings(curve, from.value + chord.length);
  return beyond > FARTHEST_EXTRAPOLATION ? null : chordOver(curve, chord.fromNet, chord.length);
}
