import { fitCurve, warning } from '@wedgebook/core';
import { findSuspects } from '@wedgebook/core/suspects';
import { emptyDocument, stripReadings, tabletLookup, type Strip } from '@wedgebook/notebook';
import { describe, expect, it } from 'vitest';
import { newStrip } from './new-entries.ts';
import { placeKey, suspectCells } from './suspect-cells.ts';

const tablets = tabletLookup(emptyDocument());
const blank = newStrip(emptyDocument(), null);
/** A smooth rise with a little scatter; `slips` replace readings by row. */
const stripWith = (slips: Readonly<Record<number, number>>, unexposed = 0.15): Strip => ({
  ...blank,
  tabletId: 'nominal-21',
  unexposedDensities: [0.16, unexposed],
  rows: Array.from({ length: 21 }, (_, row) => {
    const density = 0.15 + 1.4 / (1 + Math.exp((row - 9) / 2.5));
    const scatter = 0.004 * Math.sin(7 * row);
    return {
      step: row + 1,
      logExposure: null,
      densities: [Number((density + scatter).toFixed(2)), slips[row] ?? Number(density.toFixed(2))],
    };
  }),
});
const cellsOf = (strip: Strip) => {
  const { warnings } = fitCurve(stripReadings(strip, tablets), {
    family: 'toe-shoulder',
    suspects: findSuspects,
  });
  return suspectCells(strip, warnings, tablets);
};

describe('suspectCells', () => {
  it('marks a slip at the very cell, and no cell of a good strip', () => {
    expect([...cellsOf(stripWith({})).at.keys()]).toEqual([]);
    const { at, others } = cellsOf(stripWith({ 6: 0.33 }));
    expect([...at.keys()]).toEqual([placeKey(6, 1)]);
    expect(others.map(({ code }) => code)).not.toContain('suspect-reading');
  });

  it('marks a slip in the reading of base + fog', () => {
    expect([...cellsOf(stripWith({}, 1.5)).at.keys()]).toEqual([placeKey(-1, 1)]);
  });

  it('gives two like slips a cell each, and leaves other warnings alone', () => {
    const strip = stripWith({});
    const rows = strip.rows.map((row, i) => (i === 3 ? { ...row, densities: [9, 9] } : row));
    const logExposure = -0.5;
    const slip = warning('suspect-reading', { density: 9, logExposure });
    const gone = warning('suspect-reading', { density: 8, logExposure });
    const other = warning('base-fog-extrapolated');
    const found = suspectCells({ ...strip, rows }, [slip, other, slip, gone], tablets);
    expect([...found.at.keys()]).toEqual([placeKey(3, 0), placeKey(3, 1)]);
    expect(found.others).toEqual([other, gone]);
  });
});
