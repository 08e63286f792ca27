/**
 * Test strips for a split exposure: first soft light in equal stops, to choose the highlight; then, on
 * a new strip given that soft time, hard light in equal stops, to choose the shadow.
 *
 *   t_i = t 2^((i - middle) s)
 *
 * Sources: what a stop is (derived); the order follows from which light governs which tone, see
 * `split-tones.ts`. Deviations: none.
 */
import { InvalidArgumentError } from '../errors.ts';
import { testStrip, type TestStripPatch } from './exposure-arithmetic.ts';

export interface SplitTestPlan {
  readonly soft: readonly TestStripPatch[];
  readonly hard: {
    /** Soft light that the whole second strip gets first. */
    readonly softSeconds: number;
    readonly patches: readonly TestStripPatch[];
  };
}

/**
 * Plans both strips around expected times.
 *
 * @param softSeconds - expected time of soft light, the middle patch of the first strip, > 0
 * @param hardSeconds - expected time of hard light, the middle patch of the second, > 0
 * @param stops - from patch to patch, > 0
 * @param patches - how many in each strip, an odd integer from 3 to 29
 * @throws InvalidArgumentError if an argument is out of range
 */
export function splitTestPlan(
  softSeconds: number,
  hardSeconds: number,
  stops: number,
  patches: number,
): SplitTestPlan {
  if (!(Number.isInteger(patches) && patches % 2 === 1 && patches >= 3 && patches <= 29)) {
    throw new InvalidArgumentError('splitTestPlan', 'patches', patches, 'odd, from 3 to 29');
  }
  const first = (seconds: number): number => seconds * 2 ** (-0.5 * (patches - 1) * stops);
  return {
    soft: testStrip(first(softSeconds), stops, patches),
    hard: { softSeconds, patches: testStrip(first(hardSeconds), stops, patches) },
  };
}
