/**
 * The rule of reciprocal times for a split exposure, t_s/T_s + t_h/T_h = 1 at both aims, against the
 * layer model of the same paper. Known: derived; D_n 2.05, k 15.285588, green speeds 1, 10^-0.7814209,
 * 10^-1.5628418, one blue speed; R 180 by soft light alone and 40 by hard light alone.
 */
import { describe, expect, it } from 'vitest';
import {
  mixturePaper,
  splitExposure,
  startingSplit,
  type VariableContrastPaper,
} from '@wedgebook/core';
import { expectWithin } from '../within.ts';

const paper: VariableContrastPaper = {
  minimumDensity: 0,
  netMaximumDensity: 2.05,
  layerContrast: 15.285588,
  hardLogSpeed: 0,
  softLogSpeeds: [0, -0.7814209, -1.5628418],
};
/** Log exposures of a mixture count the soft light: hard light alone stands this much lower. */
const ALONE = 20;
const [soft, hard] = [mixturePaper(paper, -ALONE), mixturePaper(paper, ALONE)];
const aims = (range: number) => ({
  highlight: { negativeDensity: 0.3 + range, printDensity: 0.04 },
  shadow: { negativeDensity: 0.3, printDensity: 0.9 * 2.05 },
});

describe('[derived] starting estimate of a split', () => {
  it.each([0.65, 0.8, 1, 1.2, 1.4, 1.6])(
    'range %f: 15 to 24 %% too much hard light against the layers, and too little soft',
    (range) => {
      const start = startingSplit(soft, hard, aims(range));
      const right = splitExposure(paper, aims(range));
      if (start.status !== 'ok' || right.status !== 'ok') throw new Error('no split');
      const excess = 10 ** (start.hardLogExposure + ALONE - right.hardLogExposure) - 1;
      expectWithin(excess, 0.195, 0.05, 'excess of hard light');
      expect(start.softLogExposure).toBeLessThan(right.softLogExposure);
    },
  );

  it('has both times exactly when the range lies between those of the two lights', () => {
    for (const [range, status] of [
      [0.39, 'not-reachable'],
      [0.41, 'ok'],
      [1.79, 'ok'],
      [1.81, 'not-reachable'],
    ] as const) {
      expect(startingSplit(soft, hard, aims(range)).status, String(range)).toBe(status);
    }
    expect(startingSplit(soft, hard, aims(0.39))).toMatchObject({ reason: 'harder-than-hard' });
    expect(startingSplit(soft, hard, aims(1.81))).toMatchObject({ reason: 'softer-than-soft' });
  });

  it('refuses a soft strip harder than the hard one, and tones the wrong way round', () => {
    expect(startingSplit(hard, soft, aims(1))).toMatchObject({ reason: 'soft-harder-than-hard' });
    const { highlight, shadow } = aims(1);
    expect(() => startingSplit(soft, hard, { highlight: shadow, shadow: highlight })).toThrow();
    const black = { ...aims(1), shadow: { negativeDensity: 0.3, printDensity: 2.3 } };
    expect(startingSplit(soft, hard, black)).toEqual({ status: 'outside-paper', which: 'shadow' });
  });
});
