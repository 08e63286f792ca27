/**
 * Where a strip lies in a picture: the middles of its two ends, and its width.
 *
 *   along  = (p - from) . u        u the unit vector from -> to
 *   across = (p - from) x u        0 on the middle line
 *
 * Sources: none (plane geometry). Deviations: none.
 */
import { InvalidArgumentError } from '../errors.ts';

/** A place in a picture, pixels; the middle of the upper left pixel is (0.5, 0.5). */
export interface PicturePoint {
  readonly x: number;
  readonly y: number;
}

/** A strip in a picture. */
export interface StripPlace {
  /** Middle of the outer edge of step 1. */
  readonly from: PicturePoint;
  /** Middle of the outer edge of the last step. */
  readonly to: PicturePoint;
  /** Width of the strip across, pixels. */
  readonly width: number;
}

/** The two directions of a strip, unit vectors, and its length in pixels. */
export interface StripAxes {
  readonly length: number;
  readonly along: PicturePoint;
  readonly across: PicturePoint;
}

/** Shorter or narrower than this, pixels, nothing can be told apart. */
const LEAST_LENGTH = 8;
const LEAST_WIDTH = 4;

/**
 * Directions and length of a strip.
 *
 * @throws InvalidArgumentError if a number is not finite, or the strip is under 8 pixels long or 4
 *   wide
 * @example
 * stripAxes({ from: { x: 0, y: 5 }, to: { x: 10, y: 5 }, width: 4 }).length; // => 10
 */
export function stripAxes({ from, to, width }: StripPlace): StripAxes {
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  if (!(length >= LEAST_LENGTH && length < Infinity)) {
    throw new InvalidArgumentError(
      'stripAxes',
      'length',
      length,
      `at least ${LEAST_LENGTH} pixels`,
    );
  }
  if (!(width >= LEAST_WIDTH && width < Infinity)) {
    throw new InvalidArgumentError('stripAxes', 'width', width, `at least ${LEAST_WIDTH} pixels`);
  }
  const along = { x: (to.x - from.x) / length, y: (to.y - from.y) / length };
  return { length, along, across: { x: -along.y, y: along.x } };
}

/**
 * The point of a picture at a place of the strip.
 *
 * @param along - pixels from the edge of step 1
 * @param across - pixels from the middle line
 */
export function pointOnStrip(
  place: StripPlace,
  axes: StripAxes,
  along: number,
  across: number,
): PicturePoint {
  return {
    x: place.from.x + along * axes.along.x + across * axes.across.x,
    y: place.from.y + along * axes.along.y + across * axes.across.y,
  };
}
