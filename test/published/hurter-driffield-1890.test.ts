/**
 * Experiment 21 of F. Hurter and V. C. Driffield, J. Soc. Chem. Ind. 9 (31 May 1890) 455-469, one
 * plate in ferrous oxalate. Known: published, public domain; the figures come from a secondary copy
 * and were not compared with the printed page. The straight line through 20-160 candle-metre-
 * seconds (slope 0.892, inertia 5.93, H&D speed 5.73) is derived by ordinary least squares from
 * those figures; the authors' own construction gives about 0.89-0.91 and 6.1.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { filmMeasures, fitCurve, gradientAt, densityAt } from '@wedgebook/core';
import { expectWithin } from '../within.ts';

const rows = readFileSync(new URL('tables/1890-experiment-21.csv', import.meta.url), 'utf8')
  .split('\n')
  .filter((line) => /^\d/.test(line))
  .map((line) => line.split(',').map(Number));
const logExposures = rows.map((row) => row[1]!);
const densities = rows.map((row) => row[2]!);

function fitted() {
  // Densities above fog: the unexposed strip reads 0 by definition.
  const fit = fitCurve({ logExposures, densities, unexposedDensities: [0] });
  if (fit.status !== 'ok') throw new Error(fit.reason);
  return fit.curve;
}

describe('[HD1890] experiment 21', () => {
  it('has 14 exposures, each twice the last', () => {
    expect(rows).toHaveLength(14);
    for (let i = 1; i < rows.length; i++) {
      expectWithin(logExposures[i]! - logExposures[i - 1]!, Math.log10(2), 1e-3);
    }
  });

  it('has gamma and inertia of the straight part', () => {
    const measures = filmMeasures(fitted(), { exposureKind: 'absolute' });
    // 0.892 by least squares, up to 0.91 by the authors' construction; readings scatter by 0.010-0.02
    // over the 0.9 log of the straight part, hence ± 0.03.
    expectWithin(measures.gamma?.value ?? NaN, 0.9, 0.03, 'gamma');
    // Inertia between 5.93 and 6.1 candle-metre-seconds, ± 5 % for where the straight line is laid.
    expectWithin(10 ** (measures.inertia?.logExposure.value ?? NaN), 6, 0.4, 'inertia');
    expectWithin(measures.hurterDriffieldSpeed?.value ?? NaN, 34 / 6, 0.4, 'H&D speed');
  });

  it('is fitted to its scatter with a toe, a straight part and a shoulder', () => {
    const curve = fitted();
    // The readings scatter by 0.010 about the straight part alone.
    expect(curve.residualStandardDeviation ?? Infinity).toBeLessThan(0.025);
    expect(curve.parameters).toHaveLength(6);
    logExposures.forEach((x, i) => {
      expectWithin(densityAt(curve, x), densities[i]!, 0.05, `density at ${x}`);
    });
    expect(gradientAt(curve, 3.7)).toBeLessThan(0.45);
    expect(gradientAt(curve, 0)).toBeLessThan(0.2);
  });
});
