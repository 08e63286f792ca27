import { describe, expect, it } from 'vitest';
import { expectWithin } from '../../../../test/within.ts';
import type { Strip } from './document.ts';
import { SAMPLE } from './sample-document.ts';
import { stripReadings } from './strip-readings.ts';
import { tabletLookup } from './tablet-lookup.ts';

const [strip] = SAMPLE.strips as [Strip];
const tablets = tabletLookup(SAMPLE);

describe('stripReadings', () => {
  it('gives replicates as repeated log exposures and counts the unread cells', () => {
    const readings = stripReadings(strip, tablets);
    expect(readings.densities).toEqual([1.5, 1.52, 1.1]);
    // log H = log source - tablet density: 0.5 - 0.05 and 0.5 - 0.20.
    [0.45, 0.45, 0.3].forEach((x, i) => {
      expectWithin(readings.logExposures[i]!, x, 1e-12);
    });
    expect(readings.unreadCells).toBe(2);
    expect(readings.unexposedDensities).toEqual([0.2]);
    expect(readings.exposureKind).toBe('absolute');
  });

  it('takes the light without the tablet as 0 where the exposure is relative', () => {
    const readings = stripReadings({ ...strip, exposure: { kind: 'relative' } }, tablets);
    expect(readings.logExposures).toEqual([-0.05, -0.05, -0.2]);
  });

  it('prefers the log exposure of the row to the tablet', () => {
    const own = { ...strip, rows: [{ step: 1, logExposure: -2, densities: [1] }] };
    expect(stripReadings(own, tablets).logExposures).toEqual([-2]);
  });

  it('names the steps that the tablet does not have, and leaves them out', () => {
    const odd = { ...strip, rows: [{ step: 4, logExposure: null, densities: [1] }] };
    const readings = stripReadings(odd, tablets);
    expect(readings.stepsWithoutExposure).toEqual([4]);
    expect(readings.densities).toEqual([]);
    expect(stripReadings({ ...strip, tabletId: 'gone' }, tablets).stepsWithoutExposure).toEqual([
      1, 2,
    ]);
  });

  it('leaves out what cannot be a reading, and counts it', () => {
    const [step] = strip.rows;
    const odd = {
      ...strip,
      rows: [
        { ...step!, densities: [1.5, 5e205, null] },
        { step: 2, logExposure: -1e9, densities: [0.5] },
      ],
      unexposedDensities: [0.2, -7],
    };
    const readings = stripReadings(odd, tablets);
    expect(readings.densities).toEqual([1.5]);
    expect(readings.unexposedDensities).toEqual([0.2]);
    expect(readings).toMatchObject({ impossible: 3, unreadCells: 1 });
    expect(stripReadings(strip, tablets).impossible).toBe(0);
  });
});
