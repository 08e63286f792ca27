/**
 * [JONES1920] The system of subject, flare, film and paper. Known: published (a system check: subject
 * range 2.20, one stop of flare and a contrast index of 0.56 give a negative range of 1.03 and ask for
 * a paper of 1.06); derived for the straight-line film, whose range is 0.56 (2.20 - 0.30103).
 */
import { describe, expect, it } from 'vitest';
import {
  fitCurve,
  flareOfFactor,
  followTone,
  generatedPaper,
  printLogExposureFor,
  type ToneChain,
} from '@wedgebook/core';
import { expectWithin, printedTo } from '../within.ts';

// Log exposures of the chain run from -2.2 (shadow) to 0 (highlight); a straight film of slope 0.56.
const logExposures = Array.from({ length: 12 }, (_, i) => -3 + 0.3 * i);
const fit = fitCurve(
  { logExposures, densities: logExposures.map((x) => 2 + 0.56 * x) },
  { family: 'as-drawn' },
);
if (fit.status !== 'ok') throw new Error(fit.reason);
const printing = {
  baseFog: 0.32,
  effect: null,
  callierFactor: 1,
  enlargerFlare: 0,
  paper: generatedPaper(1.06),
  paperWhiteDensity: 0.06,
};
const chainOf = (printLogExposure: number): ToneChain => ({
  film: fit.curve,
  logExposureAtZero: 0,
  cameraFlareExposure: flareOfFactor(10 ** 2.2, 2),
  printing: { ...printing, printLogExposure },
});

describe('[JONES1920] system check', () => {
  const [shadow, highlight] = [-2.2, 0].map((l) => followTone(chainOf(1), l));

  it('one stop of flare leaves 1.90 of a subject range of 2.20 (derived)', () => {
    const range = highlight!.logExposure - shadow!.logExposure;
    expectWithin(range, 2.2 - Math.log10(2), 1e-9);
  });

  it('the negative range lies between the published 1.03 and 1.06, and is 1.063 (derived)', () => {
    const range = highlight!.printingDensity - shadow!.printingDensity;
    expectWithin(range, 0.56 * (2.2 - Math.log10(2)), 1e-9);
    expect(range).toBeGreaterThan(1.03 - printedTo(2));
    expect(range).toBeLessThan(1.06 + printedTo(2));
  });

  it('on the paper of 1.06 both ends of the subject come out at the ends of its scale', () => {
    const light = printLogExposureFor(printing, {
      negativeDensity: highlight!.negativeDensity,
      printDensity: 0.06 + 0.04,
    });
    const [dark, white] = [-2.2, 0].map((l) => followTone(chainOf(light!), l));
    expectWithin(white!.printDensity, 0.1, 1e-9);
    // 90 % of net 2.00; the negative's range is 0.003 more than the paper's.
    expectWithin(dark!.printDensity, 0.06 + 1.8, 0.01);
  });

  it('the gradient of flare at the shadow is L/(L+F), below one, and multiplies the others', () => {
    const flare = flareOfFactor(10 ** 2.2, 2);
    expectWithin(shadow!.gradients.cameraFlare, 10 ** -2.2 / (10 ** -2.2 + flare), 1e-12);
    const { gradients: g } = shadow!;
    expectWithin(shadow!.toneGradient, g.cameraFlare * 0.56 * g.paper, 1e-9);
  });
});
