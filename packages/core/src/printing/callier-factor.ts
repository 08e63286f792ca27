/**
 * The Callier factor of an enlarger, measured by its user: how much more density its light sees in
 * silver than diffuse light does.
 *
 *   same grey at patches of density d_i in t_i seconds:   log10 t = a + Q d
 *   one negative, two lights, one paper:                  Q = range seen / density range
 *   one negative, two lights, two papers that suit it:    Q = scale / scale under diffuse light
 *
 *   error of the second   var Q = Q² Σ (s_i / (G_i range))² + what the paper's curve adds, G_i its
 *                         gradient at print density i
 *
 * Sources: the definition of the factor [ISO5]; the time rule [CLERC]; [Seber2003] section 5.1, the
 * delta method. Deviations: the curve's error is counted for a strip, not for a paper between strips.
 */
import {
  constant,
  derivedLogExposure,
  estimateOn,
  plus,
  quotient,
  type CharacteristicCurve,
} from '../curve/index.ts';
import { InvalidArgumentError } from '../errors.ts';
import { combinedError, type Estimate } from '../estimate.ts';
import { exposureForTone, paperResponse, type PrintPaper } from '../paper/index.ts';

/** A patch and the time in which it printed the one grey. */
export interface GreyPatch {
  /** Diffuse density. */
  readonly density: number;
  readonly seconds: number;
}

/**
 * Callier factor from the times in which patches of known diffuse density print the same grey.
 *
 * @param patches - two or more of different density
 * @returns Q; no error from two patches, which fit any line
 * @throws InvalidArgumentError if there are not two densities, or a time is not above zero
 * @example
 * callierFromTimes([{ density: 0.2, seconds: 10 }, { density: 1.2, seconds: 150 }]).value.toFixed(3); // => '1.176'
 */
export function callierFromTimes(patches: readonly GreyPatch[]): Estimate {
  const densities = patches.map(({ density }) => density);
  const [least, most] = [Math.min(...densities), Math.max(...densities)];
  if (!(most - least > 0.05)) {
    throw new InvalidArgumentError('callierFromTimes', 'patches', patches, 'of different density');
  }
  if (!patches.every(({ seconds }) => seconds > 0 && seconds < Infinity)) {
    throw new InvalidArgumentError('callierFromTimes', 'seconds', patches, 'above zero');
  }
  const logs = patches.map(({ seconds }) => Math.log10(seconds));
  const mean = (values: readonly number[]) => values.reduce((a, b) => a + b, 0) / values.length;
  const [d, l] = [mean(densities), mean(logs)];
  let [across, along] = [0, 0];
  patches.forEach(({ density }, i) => {
    across += (density - d) ** 2;
    along += (density - d) * ((logs[i] ?? 0) - l);
  });
  const value = along / across;
  const squares = patches.reduce(
    (sum, { density }, i) => sum + ((logs[i] ?? 0) - l - value * (density - d)) ** 2,
    0,
  );
  const freedom = patches.length - 2;
  return {
    value,
    standardError: freedom > 0 ? Math.sqrt(squares / freedom / across) : null,
  };
}

/** Print densities of one negative's shadow and highlight under one light. */
export interface PrintedPair {
  readonly shadowPrintDensity: Estimate;
  readonly highlightPrintDensity: Estimate;
}

/**
 * Callier factor from one negative printed under two lights on one paper.
 *
 * @param paper - the paper, of a strip of its own; its contrast must be the same under both lights
 * @param diffuse - what the two spots printed under diffuse light
 * @param other - what they printed under the light to be measured; times do not count
 * @param paperWhiteDensity - where the paper has none of its own
 * @returns the ratio of the log exposure ranges, with the errors of the readings and of the paper's
 *   curve; null where a spot is outside the paper
 */
export function callierFromPrints(
  paper: PrintPaper,
  diffuse: PrintedPair,
  other: PrintedPair,
  paperWhiteDensity: number,
): Estimate | null {
  const response = paperResponse(paper);
  const white = response.whiteDensity ?? paperWhiteDensity;
  const range = ({ shadowPrintDensity, highlightPrintDensity }: PrintedPair): Estimate | null => {
    const ends = [shadowPrintDensity, highlightPrintDensity].map(({ value, standardError }) => {
      const x = value > white ? exposureForTone(response, value - white) : null;
      if (x === null) return null;
      const { gradient } = response.tone(x);
      return { value: x, standardError: standardError === null ? null : standardError / gradient };
    });
    const [shadow, highlight] = ends;
    if (!shadow || !highlight || !(shadow.value > highlight.value)) return null;
    return {
      value: shadow.value - highlight.value,
      standardError: combinedError(shadow.standardError, highlight.standardError),
    };
  };
  const [under, seen] = [range(diffuse), range(other)];
  if (under === null || seen === null) return null;
  const { value, standardError } = ratio(seen, under);
  const byPaper = paper.kind === 'strip' ? errorOfCurve(paper.curve, diffuse, other) : null;
  return { value, standardError: combinedError(standardError, byPaper) };
}

/** Both ranges are read off one curve, so that much of its error cancels in their ratio. */
function errorOfCurve(
  curve: CharacteristicCurve,
  diffuse: PrintedPair,
  other: PrintedPair,
): number | null {
  const estimate = estimateOn(curve, (c) => {
    const range = ({ shadowPrintDensity, highlightPrintDensity }: PrintedPair) => {
      const shadow = derivedLogExposure(c, constant(c, shadowPrintDensity.value));
      const highlight = derivedLogExposure(c, constant(c, highlightPrintDensity.value));
      return shadow && highlight && plus(shadow, highlight, -1);
    };
    const [seen, under] = [range(other), range(diffuse)];
    return seen && under && quotient(seen, under);
  });
  return estimate?.standardError ?? null;
}

/**
 * Callier factor from two papers that print one negative alike, each under its own light.
 *
 * @param scale - exposure scale of the paper under the light to be measured
 * @param diffuseScale - exposure scale of the paper under diffuse light
 * @throws InvalidArgumentError if a scale is not above zero
 */
export function callierFromPapers(scale: Estimate, diffuseScale: Estimate): Estimate {
  for (const { value } of [scale, diffuseScale]) {
    if (!(value > 0 && value < Infinity)) {
      throw new InvalidArgumentError('callierFromPapers', 'scale', value, 'above zero');
    }
  }
  return ratio(scale, diffuseScale);
}

function ratio(a: Estimate, b: Estimate): Estimate {
  const value = a.value / b.value;
  const error = combinedError(
    a.standardError === null ? null : a.standardError / a.value,
    b.standardError === null ? null : b.standardError / b.value,
  );
  return { value, standardError: error === null ? null : value * error };
}
