/**
 * Contrast of a film curve by the name of its measure.
 *
 *   contrast-index | gamma | gradient-L     L log exposure from net 0.10, such as gradient-1.30
 *
 * Sources: [NNY1966] contrast index, [HD1890] gamma, [ISO6] the chord over 1.30. Deviations: none.
 */
import { estimateOn, type CharacteristicCurve } from '../curve/index.ts';
import { InvalidArgumentError } from '../errors.ts';
import type { Estimate } from '../estimate.ts';
import { chordOver } from './average-gradients.ts';
import { contrastIndex } from './contrast-index.ts';
import { SPEED_POINT_DENSITY } from './film-measures.ts';
import { FARTHEST_EXTRAPOLATION, withinReadings } from './reach.ts';
import { speedPointOf } from './speed-point-of.ts';
import { steepestPart } from './steepest-part.ts';

export type ContrastMeasure = 'contrast-index' | 'gamma' | `gradient-${string}`;

/** Shortest and longest log exposure that a chord may cover. */
const CHORDS = [0.3, 3] as const;

/** Whether a name is one of a measure: `contrast-index`, `gamma`, `gradient-0.30` to `gradient-3`. */
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
  const length = chordOf(measure);
  if (length === null) {
    throw new InvalidArgumentError('contrastOf', 'measure', measure, 'the name of a measure');
  }
  const from = speedPointOf(curve);
  if (from === null) return null;
  const { beyond } = withinReadings(curve, from.value + length);
  return beyond > FARTHEST_EXTRAPOLATION ? null : chordOver(curve, SPEED_POINT_DENSITY, length);
}

/** Log exposure that a chord covers; null where the name is not one of a chord. */
function chordOf(name: string): number | null {
  const [, length] = /^gradient-(\d(?:\.\d{1,2})?)$/.exec(name) ?? [];
  const value = Number(length ?? NaN);
  return value >= CHORDS[0] && value <= CHORDS[1] ? value : null;
}
