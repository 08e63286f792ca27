/**
 * Experiment 21 of F. Hurter and V. C. Driffield, J. Soc. Chem. Ind. 9 (31 May 1890) 455-469, one
 * plate in ferrous oxalate. Known: published, public domain; the figures come from a secondary copy
 * and were not compared with the printed page. The straight line through 20-160 candle-metre-
 * seconds (slope 0.892, inertia 5.93, H&D speed 5.73) is derived by ordinary least squares from
 * those figures; the authors' own construction gives about 0.89-0.91 and 6.1.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  averageGradientBetweenExposures,
  densityAt,
  filmMeasures,
  fitCurve,
  fitModel,
  gradientAt,
  straightLine,
} from '@wedgebook/core';
import { expectWithin, printedTo } from '../within.ts';

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

  it('derived: a straight line through 20-160 has slope 0.892, inertia 5.93 and H&D speed 5.73', () => {
    const part = rows.filter((row) => row[0]! >= 20 && row[0]! <= 160);
    const line = fitModel(
      straightLine,
      part.map((row) => row[1]!),
      part.map((row) => row[2]!),
    );
    const [intercept, slope] = line.parameters as [number, number];
    expectWithin(slope, 0.892, printedTo(3), 'slope');
    const inertia = 10 ** (-intercept / slope);
    expectWithin(inertia, 5.93, printedTo(2), 'inertia');
    expectWithin(34 / inertia, 5.73, printedTo(2), 'H&D speed');
  });

  it('has the gradient of the straight part where the authors drew it, and gamma not below it', () => {
    const curve = fitted();
    const chord = averageGradientBetweenExposures(curve, Math.log10(20), Math.log10(160));
    // The straight line and the smooth curve differ by less than the scatter of 0.010-0.02 at the
    // ends of 0.9 of log exposure allows.
    expectWithin(chord?.value ?? NaN, 0.892, 0.03, 'gradient over 20-160');
    const measures = filmMeasures(curve, { exposureKind: 'absolute' });
    // The readings rise by 0.947 a unit over 20-640 and by 1.096 in their steepest single step.
    expect(measures.gamma?.value).toBeGreaterThan(0.892);
    expect(measures.gamma?.value).toBeLessThan(1.0);
    // A steeper straight part meets the base later: after the 6.1 of the authors' construction, and
    // before the 12.2 of the steepest single step, 320-640 (2.5051 - 1.555 / 1.096 = 1.086).
    const inertia = 10 ** (measures.inertia?.logExposure.value ?? NaN);
    expect(inertia).toBeGreaterThan(6.1);
    expect(inertia).toBeLessThan(12.2);
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
