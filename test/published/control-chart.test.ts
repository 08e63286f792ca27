/**
 * [NISTEH] section 6.3.2.2, control chart of individual measurements: ten flow rates, their mean
 * 50.81, mean moving range 1.8778 and limits 45.8159 and 55.8041 (published, quoted from memory;
 * mean, range and limits agree with the ten values).
 */
import { describe, expect, it } from 'vitest';
import { driftChart, InvalidArgumentError, type DriftSignal } from '@wedgebook/core';
import { expectWithin, printedTo } from '../within.ts';

const FLOW = [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1];

describe('[NISTEH] 6.3.2.2: ten flow rates', () => {
  const chart = driftChart(FLOW, { first: 10 });
  if (chart.status !== 'ok') throw new Error(chart.reason);
  it('have their mean and limits', () => {
    expectWithin(chart.centre, 50.81, printedTo(2));
    // The handbook divides by 1.128, four figures of 2/sqrt(pi): half of the last one is 4.4e-4 of it.
    expectWithin(chart.sigma, 1.8778 / 1.128, (1.8778 / 1.128) * 4.5e-4);
    expectWithin(chart.actionLimits[0], 45.8159, 2e-3);
    expectWithin(chart.actionLimits[1], 55.8041, 2e-3);
  });

  it('are all within them', () => {
    expect(chart.points.every(({ signals }) => signals.length === 0)).toBe(true);
  });
});

/** Five strips that set centre 0.60 by ranges of 0.01. */
const STEADY = [0.6, 0.61, 0.6, 0.59, 0.6];

describe('[NISTEH] 6.3.2 run rules', () => {
  const signalsOf = (later: readonly number[]): DriftSignal[] => {
    const chart = driftChart([...STEADY, ...later]);
    if (chart.status !== 'ok') throw new Error(chart.reason);
    return [...(chart.points.at(-1)?.signals ?? [])];
  };
  // Ranges of 0.01: sigma is 0.01 / 1.128 = 0.00886, limits 0.5734 and 0.6266 (derived).
  it.each<[string, number[], DriftSignal[]]>([
    ['inside', [0.61], []],
    ['beyond three sigma', [0.628], ['beyond-limits']],
    ['two of three beyond two sigma', [0.619, 0.6, 0.619], ['two-of-three']],
    ['one on each side', [0.619, 0.6, 0.581], []],
    [
      'eight above the centre',
      [0.601, 0.606, 0.602, 0.607, 0.601, 0.604, 0.603, 0.605],
      ['one-side'],
    ],
    ['six that fall', [0.603, 0.601, 0.599, 0.597, 0.595, 0.593], ['trend']],
  ])('%s', (_, later, expected) => {
    expect(signalsOf(later)).toEqual(expected);
  });

  it('takes its limits from the first strips alone', () => {
    const one = driftChart(STEADY);
    const other = driftChart([...STEADY, 0.7, 0.8]);
    expect(other).toMatchObject({
      centre: (one as { centre: number }).centre,
      sigma: (one as { sigma: number }).sigma,
    });
  });

  it('has no limits from two strips, or from strips that are all alike', () => {
    expect(driftChart([0.6, 0.61])).toMatchObject({ reason: 'too-few-strips' });
    expect(driftChart([0.6, 0.6, 0.6])).toMatchObject({ reason: 'no-scatter' });
    expect(driftChart([0.6, 0.6, 0.6], { leastSigma: 0.01 }).status).toBe('ok');
  });

  it.each([NaN, Infinity])('refuses %f', (value) => {
    expect(() => driftChart([0.6, value, 0.6])).toThrow(InvalidArgumentError);
    expect(() => driftChart(STEADY, { leastSigma: value })).toThrow(InvalidArgumentError);
    expect(() => driftChart(STEADY, { first: value })).toThrow(InvalidArgumentError);
  });
});
