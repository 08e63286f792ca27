import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { textOverlaps, textsOutside } from '../scene/text-overlaps.ts';
import { layoutPrintHistogram, type PrintHistogramInput } from './print-histogram.layout.ts';

const LABELS = [
  'Untreated, grade 2',
  'Treated, grade 2',
  'Untreated, its own scale 0.74',
  'Treated, its own scale 0.88',
];

function input(width: number, parts: readonly number[]): PrintHistogramInput {
  return {
    width,
    height: 280,
    title: 'Histogram',
    binWidth: 0.05,
    prints: LABELS.map((label, i) => ({ id: `print-${i}`, label, parts: [...parts, i / 10] })),
    drawn: ['print-0', 'print-3'],
  };
}

describe('histogram of prints', () => {
  it('lets no two texts overlap and none leave it, from 300 pixels up', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 300, max: 1200 }),
        fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 60 }),
        (width, parts) => {
          const scene = layoutPrintHistogram(input(width, parts));
          expect(textOverlaps(scene)).toEqual([]);
          expect(textsOutside(scene)).toEqual([]);
          expect(JSON.stringify(scene)).not.toContain('NaN');
        },
      ),
      { numRuns: 60 },
    );
  });

  it('draws the two that are asked for and lists all four', () => {
    const scene = layoutPrintHistogram(input(600, [0.2, 0.5]));
    expect(scene.marks.some(({ name }) => name === 'histogram-second')).toBe(true);
    expect(scene.table.columns).toHaveLength(5);
    // by hand: 0.2 of the picture lies between 0 and 0.05
    expect(scene.table.rows[0]).toEqual(['0.00 – 0.05', '20.0', '20.0', '20.0', '20.0']);
    expect(scene.table.rows.at(-1)?.[0]).toBe('0.10 …');
  });

  it('draws one alone where it is chosen twice', () => {
    const scene = layoutPrintHistogram({ ...input(600, [1]), drawn: ['print-1', 'print-1'] });
    expect(scene.marks.some(({ name }) => name === 'histogram-first')).toBe(true);
    expect(scene.marks.some(({ name }) => name === 'histogram-second')).toBe(false);
  });
});
