/**
 * Two curves whose measures are known in closed form, read off a 21-step wedge of 0.15, log H
 * -3.00 to 0.00. Known: derived; anyone can recompute the figures from the stated formulas.
 *
 *   A  hard toe   D = 0.12 + max(0, 0.65 (x + 2.40))
 *   B  soft toe   D = 0.15 + 0.70 · 0.25 · ln(1 + exp((x + 2.00) / 0.25))
 *
 * A's speed point is -2.40 + 0.10 / 0.65; every chord of its straight part is 0.65. B's contrast
 * index was solved to 12 digits with a general root finder outside this project.
 */
import { describe, expect, it } from 'vitest';
import { filmMeasures, fitCurve, type FilmMeasures } from '@wedgebook/core';
import { expectWithin } from '../within.ts';

const logExposures = Array.from({ length: 21 }, (_, i) => -3 + 0.15 * i);
const curveA = (x: number) => 0.12 + Math.max(0, 0.65 * (x + 2.4));
const curveB = (x: number) => 0.15 + 0.7 * 0.25 * Math.log1p(Math.exp((x + 2) / 0.25));

function measure(curve: (x: number) => number, decimals: number): FilmMeasures {
  const densities = logExposures.map((x) => Number(curve(x).toFixed(decimals)));
  const fit = fitCurve({ logExposures, densities });
  if (fit.status !== 'ok') throw new Error(`no curve: ${fit.reason}`);
  return filmMeasures(fit.curve, { exposureKind: 'absolute' });
}
const chord = (measures: FilmMeasures, to: string) =>
  measures.averageGradients.find((gradient) => gradient.to === to)?.value.value ?? NaN;

// Printed digits of the densities set what can be asked of the measures.
describe.each([
  [4, 0.001],
  [2, 0.02],
])('[derived] from densities printed to %i decimals', (decimals, tolerance) => {
  it('curve A: a hard toe and a straight part of 0.65', () => {
    const a = measure(curveA, decimals);
    expectWithin(a.baseFog.value, 0.12, tolerance, 'base + fog');
    expectWithin(
      a.speedPoint?.logExposure.value ?? NaN,
      -2.4 + 0.1 / 0.65,
      tolerance,
      'speed point',
    );
    expectWithin(a.isoTriangle?.densityRise.value ?? NaN, 0.845, tolerance, 'rise over 1.30');
    expectWithin(a.gamma?.value ?? NaN, 0.65, tolerance, 'gamma');
    expectWithin(a.contrastIndex?.value ?? NaN, 0.65, tolerance, 'contrast index');
    expectWithin(a.inertia?.logExposure.value ?? NaN, -2.4, tolerance, 'inertia');
    expect(a.isoTriangle?.met).toBe(true);
    expect(a.speed).toMatchObject({ arithmetic: 125, degrees: 22, kind: 'iso' });
    // S 141.008 for an error of the speed point of `tolerance`.
    expectWithin(a.speed?.exact.value ?? NaN, 141.008, 141.008 * Math.LN10 * tolerance, 'S');
  });

  it('curve B: a soft toe without shoulder', () => {
    const b = measure(curveB, decimals);
    expectWithin(b.speedPoint?.logExposure.value ?? NaN, -2.065083, tolerance, 'speed point');
    expectWithin(b.isoTriangle?.densityRise.value ?? NaN, 0.76569, tolerance, 'rise over 1.30');
    expectWithin(chord(b, '+1.30'), 0.76569 / 1.3, tolerance, 'chord over 1.30');
    expectWithin(chord(b, '+1.50'), 0.603336, tolerance, 'chord over 1.50');
    expectWithin(chord(b, '+2.00'), 0.627259, tolerance, 'chord over 2.00');
    expectWithin(b.contrastIndex?.value ?? NaN, 0.618396, tolerance, 'contrast index');
    expect(b.speed).toMatchObject({ arithmetic: 100, degrees: 21, kind: 'iso' });
    expectWithin(b.speed?.exact.value ?? NaN, 92.9337, 92.9337 * Math.LN10 * tolerance, 'S');
  });
});

describe('[derived] intervals of the measures of curve B under known noise', () => {
  it('hold the true speed point and chord in 95 % of the cases, give or take', () => {
    // A small linear congruential generator: the same noise at every run.
    let state = 20261125;
    const uniform = () => {
      state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
      return (state + 0.5) / 2 ** 32;
    };
    const normal = () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
    const trials = 300;
    let speedHeld = 0;
    let chordHeld = 0;
    for (let trial = 0; trial < trials; trial++) {
      const densities = logExposures.map((x) => curveB(x) + 0.01 * normal());
      const fit = fitCurve({ logExposures, densities });
      if (fit.status !== 'ok') throw new Error(fit.reason);
      const measures = filmMeasures(fit.curve, { exposureKind: 'absolute' });
      const held = (
        estimate: { value: number; standardError: number | null } | undefined,
        truth: number,
      ) =>
        typeof estimate?.standardError === 'number' &&
        // t quantile for 17 degrees of freedom at 97.5 %.
        Math.abs(estimate.value - truth) <= 2.11 * estimate.standardError;
      if (held(measures.speedPoint?.logExposure, -2.065083)) speedHeld++;
      if (held(measures.averageGradients.find((g) => g.to === '+1.50')?.value, 0.603336))
        chordHeld++;
    }
    // Binomial spread of 300 trials at 0.95 is 0.0126: three of them on either side.
    for (const held of [speedHeld, chordHeld]) {
      expect(held / trials).toBeGreaterThan(0.91);
      expect(held / trials).toBeLessThan(0.99);
    }
  });
});
