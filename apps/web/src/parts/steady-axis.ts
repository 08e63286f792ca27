/**
 * The ends of an axis that holds still while one types or slides: it grows at once, so that nothing
 * is cut off, and shrinks when the user rests.
 */
import { afterRest, forget } from '../state/after-frame.ts';

/** Least and greatest value. */
export type Ends = readonly [number, number];

export class SteadyAxis {
  #of: string | undefined;
  #ends: Ends = [0, 0];
  readonly #drawAnew: () => unknown;
  readonly #settle = (): unknown => {
    this.#of = undefined;
    return this.#drawAnew();
  };

  /** @param drawAnew - asks for a new drawing; a promise is awaited before other work goes on */
  constructor(drawAnew: () => unknown) {
    this.#drawAnew = drawAnew;
  }

  /**
   * The ends to draw; the same array as long as they stay.
   *
   * @param of - what is drawn; another drawing starts with its own ends
   * @param wanted - the ends that it needs
   */
  hold(of: string, wanted: Ends): Ends {
    const [low, high] = this.#of === of ? this.#ends : wanted;
    const ends: Ends = [Math.min(low, wanted[0]), Math.max(high, wanted[1])];
    if (ends[0] !== this.#ends[0] || ends[1] !== this.#ends[1]) this.#ends = ends;
    this.#of = of;
    if (ends[0] !== wanted[0] || ends[1] !== wanted[1]) afterRest(this.#settle);
    return this.#ends;
  }

  /** Forgets what waits, when the drawing is taken away. */
  release(): void {
    forget(this.#settle);
    this.#of = undefined;
  }
}
