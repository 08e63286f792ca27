/**
 * Exposure scales of a three-layer variable-contrast paper under mixed light. Known: derived;
 * D_n 2.05, k 15.285588, green speeds 1, 10^-0.7814209, 10^-1.5628418, one blue speed; the scales
 * were computed with a general root finder outside this project.
 */
import { describe, it } from 'vitest';
import { exposureScaleOfMixture, type VariableContrastPaper } from '@wedgebook/core';
import { expectWithin, printedTo } from '../within.ts';

const paper: VariableContrastPaper = {
  minimumDensity: 0,
  netMaximumDensity: 2.05,
  layerContrast: 15.285588,
  hardLogSpeed: 0,
  softLogSpeeds: [0, -0.7814209, -1.5628418],
};

describe('[derived] three layers of equal contrast and blue speed', () => {
  it.each([
    [-4, 179.846],
    [-2, 166.905],
    [-1, 117.452],
    [0, 56.476],
    [2, 40.005],
  ])('log10 of blue over green %f: R %f', (logRatio, isoRange) => {
    expectWithin(100 * exposureScaleOfMixture(paper, logRatio), isoRange, printedTo(3));
  });
});
