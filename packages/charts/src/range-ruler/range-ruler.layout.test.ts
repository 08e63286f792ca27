import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { expectWithin } from '../../../../test/within.ts';
import { sampleSheet } from '../curve-sheet/sample-sheet.ts';
import { textOverlaps, textsOutside } from '../scene/text-overlaps.ts';
import { layoutRangeRuler } from './range-ruler.layout.ts';

const ruler = (
  width: number,
  range: number,
  exposureScale: number,
  gain = 1.18,
  label = 'grade 2',
) => {
  const { fit } = sampleSheet({ width: 980, range, exposureScale, gain });
  return layoutRangeRuler({ ...fit!, paper: { label, exposureScale }, width, title: 'ruler' });
};

describe('range ruler', () => {
  it('lets no two texts overlap and none leave it, at any width', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 290, max: 1200 }),
        fc.double({ min: 0.1, max: 2.4, noNaN: true }),
        fc.double({ min: 0.5, max: 1.8, noNaN: true }),
        fc.double({ min: 1, max: 1.45, noNaN: true }),
        fc.constantFrom('grade 2', 'The same paper, one grade harder'),
        (width, range, scale, gain, label) => {
          const scene = ruler(width, range, scale, gain, label);
          expect(textOverlaps(scene)).toEqual([]);
          expect(textsOutside(scene)).toEqual([]);
        },
      ),
      { numRuns: 300 },
    );
  });

  it('draws bar and paper to one scale from the shadow', () => {
    const scene = ruler(800, 0.75, 1.05);
    const numbers = (name: string) => {
      const mark = scene.marks.find((each) => each.kind === 'path' && each.name === name);
      return mark?.kind === 'path' ? (mark.d.match(/-?\d+(\.\d+)?/g) ?? []).map(Number) : [];
    };
    const [left = 0, , width = 0] = numbers('ruler-before');
    const [rim = 0] = numbers('ruler-rim');
    expectWithin(width / (rim - left), 0.75 / 1.05, 0.002);
  });

  it('has a table with units', () => {
    expect(ruler(800, 0.75, 1.05).table.rows).toEqual([
      ['before', '0.75', '2.5', 'grade 4', '1.05'],
      ['after 6.5 min', '0.89', '2.9', 'grade 3', '1.05'],
    ]);
  });
});
