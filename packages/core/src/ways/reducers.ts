/**
 * Ways that take density off, each as far as the target asks.
 *
 *   proportional        v = k S
 *   superproportional   v = S - (1 - k) r (S/r)^m, m > 1, r = S of the highlight: it takes the more the
 *                       denser, and never adds
 *   surface             v = max(0, S - a): the range stays, the exposure shortens
 *   k from   Q (v_h - v_s) = target range - stain range
 *
 * Sources: [GSE1979], [CLERC] the classes of reducers. Deviations: stain is taken to stay, since a
 * reducer dissolves silver; the exponent of the superproportional reducer is a built-in number.
 */
import { PROPORTIONAL, type GainLaw } from '../treatment/gain-law.ts';
import type { BathWay } from './intensifiers.ts';
import { lawChange, rangeOf, type ChangeSettings, type NegativeNets } from './negative-change.ts';
import type { ProcessDefaults } from './way-out.ts';

export function reducers(
  negative: NegativeNets,
  aim: number,
  settings: ChangeSettings,
  defaults: ProcessDefaults,
): BathWay[] {
  const { callierFactor, stain } = settings;
  const shadow = negative.shadow / (1 + stain);
  const highlight = negative.highlight / (1 + stain);
  // Silver's share of the range that is wanted; none where the stain alone is too long.
  const wanted = Math.max(0, (aim - stain * (highlight - shadow)) / callierFactor);
  const steepLaw = (exponent: number): GainLaw => ({
    family: 'intensifier-safe',
    exponent,
    referenceDensity: highlight,
  });
  const range = highlight - shadow;
  const proportional = Math.max(LEAST_GAIN, wanted / range);
  const { value: exponent, range: exponents } = defaults.superproportionalExponent;
  const byFull = highlight * (1 - (shadow / highlight) ** exponent);
  // Beyond this the densest would become thinner than what lies beneath it.
  const steep = Math.max(1 - 1 / exponent, 1 - (range - wanted) / byFull);
  const atExponent = (m: number): number =>
    rangeOf(lawChange(steep, steepLaw(m), settings), negative);

  const spare = Math.max(0, shadow - defaults.leastShadow.value);
  const surface: GainLaw = { family: 'shift', exponent: 1, referenceDensity: highlight };
  const left = 1 - spare / highlight;
  return [
    {
      id: 'reduce-proportional',
      change: lawChange(proportional, PROPORTIONAL, settings),
      gain: proportional,
    },
    {
      id: 'reduce-superproportional',
      change: lawChange(steep, steepLaw(exponent), settings),
      gain: steep,
      plausibleRange: [atExponent(exponents[0]), atExponent(exponents[1])],
    },
    {
      id: 'reduce-surface',
      change: lawChange(left, surface, settings),
      gain: left,
      taken: spare,
      limit: spare > 0 ? 'range-unchanged' : 'shadow-lost',
    },
  ];
}

/** A hundredth of the silver: less is no negative. */
const LEAST_GAIN = 0.01;
