/**
 * Chromium bleach and redevelopment: whole, stopped early, and a second time.
 *
 *   whole          v = k S
 *   in part p      v = k S (1 - (1 - p) S / S_h), what stays undeveloped grows with the density:
 *                  nothing in the thinnest, 1 - p at the highlight S_h
 *   twice          v = k² S
 *
 * The part is the one that brings the range to the aim, where a whole pass goes beyond it.
 *
 * Sources: [MEES1942] stronger than selenium, repeatable, its shape set by how far redevelopment goes;
 * rehalogenating bleaches take image stain away [STAINSHEET]. Deviations: the shape of a part is
 * assumed. It may be anything from what is written above to the same part everywhere, v = k p S, and the
 * plausible range spans both; that a second pass multiplies as the first did is assumed too.
 */
import { PROPORTIONAL } from '../treatment/gain-law.ts';
import type { BathWay } from './intensifiers.ts';
import {
  lawChange,
  rangeOf,
  wholeChange,
  type ChangeSettings,
  type NegativeChange,
  type NegativeNets,
} from './negative-change.ts';
import type { ProcessDefaults } from './way-out.ts';

/** The bleach takes the stain. */
const bleached = (settings: ChangeSettings): ChangeSettings => ({ ...settings, stainKept: 0 });

/** A whole pass of gain k; two passes are one of k². */
export function redeveloped(gain: number, settings: ChangeSettings): NegativeChange {
  return lawChange(gain, PROPORTIONAL, bleached(settings));
}

/** A pass that is stopped when a part of the highlight is back. */
function redevelopedInPart(
  gain: number,
  part: number,
  highlight: number,
  settings: ChangeSettings,
): NegativeChange {
  const bend = (1 - part) / highlight;
  return wholeChange(
    (silver) => ({
      value: gain * silver * (1 - bend * silver),
      byDensity: gain * (1 - 2 * bend * silver),
    }),
    bleached(settings),
  );
}

/**
 * The three ways of chromium.
 *
 * @param negative - net densities, stain included
 * @param aim - printing range aimed at
 * @param settings - light and stain
 * @param defaults - gain of a pass, and the part of an early stop
 */
export function chromiumWays(
  negative: NegativeNets,
  aim: number,
  settings: ChangeSettings,
  { chromiumGain, redevelopedPart }: ProcessDefaults,
): BathWay[] {
  const { value: gain, range } = chromiumGain;
  const passes = (count: number): BathWay => ({
    id: count === 1 ? 'chromium' : 'chromium-twice',
    change: redeveloped(gain ** count, settings),
    gain: gain ** count,
    redevelopedPart: 1,
    plausibleRange: [
      rangeOf(redeveloped(range[0] ** count, settings), negative),
      rangeOf(redeveloped(range[1] ** count, settings), negative),
    ],
  });

  const silver = negative.highlight / (1 + settings.stain);
  const inPart = (k: number, part: number): NegativeChange =>
    redevelopedInPart(k, part, silver, settings);
  const [least] = redevelopedPart.range;
  const rangeAt = (part: number): number => rangeOf(inPart(gain, part), negative);
  // The range is a straight line in the part.
  const slope = (rangeAt(1) - rangeAt(least)) / (1 - least);
  const wanted = slope > 0 ? 1 - (rangeAt(1) - aim) / slope : redevelopedPart.value;
  const part = wanted >= 1 ? redevelopedPart.value : Math.max(least, wanted);
  const ends = range.flatMap((k) => [
    rangeOf(inPart(k, part), negative),
    rangeOf(redeveloped(k * part, settings), negative),
  ]);
  return [
    {
      id: 'chromium-partial',
      change: inPart(gain, part),
      gain: gain * part,
      redevelopedPart: part,
      plausibleRange: [Math.min(...ends), Math.max(...ends)],
    },
    passes(1),
    passes(2),
  ];
}
