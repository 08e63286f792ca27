/**
 * The four quadrants of tone reproduction as lists of points, to draw and to print as a table.
 *
 *   I    log luminance of the subject -> log exposure on the film     (camera, flare)
 *   II   log exposure on the film -> density of the negative          (film, bath, light)
 *   III  density of the negative -> print density                     (paper, at its exposure)
 *   IV   log luminance of the subject -> print density                (the whole)
 *
 * Sources: [JONES1920] the four-quadrant diagram. Deviations: the density of the second quadrant is the
 * one that the paper sees.
 */
import { InvalidArgumentError } from '../errors.ts';
import { tonePrinter, type SubjectTone, type ToneChain } from './tone-chain.ts';

export interface QuadrantPoint {
  readonly x: number;
  readonly y: number;
}

export interface FourQuadrants {
  readonly camera: readonly QuadrantPoint[];
  readonly film: readonly QuadrantPoint[];
  readonly paper: readonly QuadrantPoint[];
  readonly reproduction: readonly QuadrantPoint[];
  /** The tones that all four were drawn from, by log luminance. */
  readonly tones: readonly SubjectTone[];
}

/**
 * Points of the four quadrants.
 *
 * @param chain - the whole chain
 * @param from - least log luminance
 * @param to - greatest log luminance
 * @param points - how many, 2 to 2000; 121 unless given
 * @throws InvalidArgumentError if an argument is out of range
 */
export function fourQuadrants(
  chain: ToneChain,
  from: number,
  to: number,
  points = 121,
): FourQuadrants {
  if (!(from < to && Number.isFinite(to - from))) {
    throw new InvalidArgumentError('fourQuadrants', 'from', from, 'below `to`');
  }
  if (!(Number.isInteger(points) && points >= 2 && points <= 2000)) {
    throw new InvalidArgumentError('fourQuadrants', 'points', points, 'from 2 to 2000');
  }
  const follow = tonePrinter(chain);
  const tones = Array.from({ length: points }, (_, i) =>
    follow(from + (i / (points - 1)) * (to - from)),
  );
  return {
    camera: tones.map((tone) => ({ x: tone.logLuminance, y: tone.logExposure })),
    film: tones.map((tone) => ({ x: tone.logExposure, y: tone.printingDensity })),
    paper: tones.map((tone) => ({ x: tone.printingDensity, y: tone.printDensity })),
    reproduction: tones.map((tone) => ({ x: tone.logLuminance, y: tone.printDensity })),
    tones,
  };
}
