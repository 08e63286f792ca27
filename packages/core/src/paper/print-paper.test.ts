import { describe, expect, it } from 'vitest';
import { expectWithin, printedTo } from '../../../../test/within.ts';
import { fitCurve } from '../curve/index.ts';
import { InvalidArgumentError } from '../errors.ts';
import { generatedPaper } from './print-paper.ts';
import { printTone } from './print-tone.ts';

describe('the generated paper', () => {
  // Worked logistic paper of R 105 (derived): Dn 2.00, greatest gradient 2.8995.
  it('[ISO6846] logistic paper of R 105: ends of the scale, greatest gradient', () => {
    const paper = generatedPaper(1.05);
    expectWithin(printTone(paper, 0).netDensity, 0.04, 1e-12, 'threshold');
    expectWithin(printTone(paper, 1.05).netDensity, 1.8, 1e-12, 'shadow');
    expectWithin(printTone(paper, 0.67111 - 0.14611).netDensity, 0.6, 2e-5, 'speed point');
    expectWithin(printTone(paper, 0.67111).gradient, 2.8995, printedTo(4), 'greatest gradient');
  });

  it('has the slope of its own densities', () => {
    const paper = generatedPaper(0.9, 2.1);
    for (const x of [-0.3, 0, 0.4, 0.9, 1.5]) {
      const h = 1e-5;
      const slope =
        (printTone(paper, x + h).netDensity - printTone(paper, x - h).netDensity) / (2 * h);
      expectWithin(printTone(paper, x).gradient, slope, 1e-8, `slope at ${x}`);
    }
  });

  it('agrees with a strip that follows the same curve', () => {
    // The same paper of R 105 read as a strip: 0.06 is paper white, 5.79909 its steepness.
    const logExposures = Array.from({ length: 41 }, (_, i) => -1 + i / 20);
    const densities = logExposures.map((x) => 0.06 + 2 / (1 + Math.exp(-5.79909 * x)));
    const fit = fitCurve({ logExposures, densities }, { family: 'logistic-4' });
    if (fit.status !== 'ok') throw new Error(fit.reason);
    const strip = { kind: 'strip', exposureScale: 1.05, curve: fit.curve } as const;
    for (const x of [0, 0.3, 0.7, 1.05]) {
      const [a, b] = [printTone(strip, x), printTone(generatedPaper(1.05), x)];
      expectWithin(a.netDensity, b.netDensity, 2e-3, `density at ${x}`);
      expectWithin(a.gradient, b.gradient, 0.02, `gradient at ${x}`);
    }
  });

  it('refuses scales, maxima and exposures that are none', () => {
    for (const scale of [0, -1, NaN, Infinity]) {
      expect(() => generatedPaper(scale)).toThrow(InvalidArgumentError);
    }
    expect(() => generatedPaper(1, 0.04)).toThrow(InvalidArgumentError);
    expect(() => printTone(generatedPaper(1), NaN)).toThrow(InvalidArgumentError);
  });
});
