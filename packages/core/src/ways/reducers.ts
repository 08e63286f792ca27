/**
 * Ways that take density off, each as far as the target asks.
 *
 *   proportional        v = k S
 *   superproportional   v = k r (S/r)^m, m > 1, stated at the highlight, r = S of the highlight
 *   surface             v = max(0, S - a): the range stays, the exposure shortens
 *   k from   Q (v_h - v_s) = target range - stain range
 *
 * Sources: [GSE1979], [CLERC] the classes of reducers. Deviations: stain is taken to stay, since a
 * reducer dissolves silver; the exponent of the superproportional reducer is a built-in number.
 */
import { gainDerivatives, PROPORTIONAL, type GainLaw } from '../treatment/gain-law.ts';
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
  const superproportional = (exponent: number): GainLaw => ({
    family: 'power',
    exponent,
    referenceDensity: highlight,
  });
  const to = (id: BathWay['id'], law: GainLaw): BathWay => {
    const part = (u: number): number => gainDerivatives(u, 1, law).value;
    const gain = Math.max(LEAST_GAIN, wanted / (part(highlight) - part(shadow)));
    return { id, change: lawChange(gain, law, settings), gain };
  };
  const { value, range } = defaults.superproportionalExponent;
  const steep = to('reduce-superproportional', superproportional(value));
  const atExponent = (exponent: number): number =>
    rangeOf(lawChange(steep.gain ?? 1, superproportional(exponent), settings), negative);

  const spare = Math.max(0, shadow - defaults.leastShadow.value);
  const surface: GainLaw = { family: 'shift', exponent: 1, referenceDensity: highlight };
  const left = 1 - spare / highlight;
  return [
    to('reduce-proportional', PROPORTIONAL),
    { ...steep, plausibleRange: [atExponent(range[0]), atExponent(range[1])] },
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
