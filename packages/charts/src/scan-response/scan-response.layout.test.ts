import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { textOverlaps, textsOutside } from '../scene/text-overlaps.ts';
import { layoutScanResponse, type ScanResponseInput } from './scan-response.layout.ts';

function input(width: number, densities: readonly number[]): ScanResponseInput {
  const at = (density: number) => ({ density, darkness: 0.05 + 0.45 * density });
  return {
    width,
    height: 300,
    title: 'Response',
    curve: densities.map(at),
    tablet: densities.map((density, i) => ({
      ...at(density),
      step: i + 1,
      difference: i === 0 ? null : 0.004,
    })),
    strip: densities.slice(1).map(at),
  };
}

describe('response of a scanner', () => {
  it('lets no two texts overlap and none leave it, from 300 pixels up', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 300, max: 1200 }),
        fc.array(fc.double({ min: -0.2, max: 5, noNaN: true }), { maxLength: 41 }),
        (width, densities) => {
          const scene = layoutScanResponse(input(width, densities));
          expect(textOverlaps(scene)).toEqual([]);
          expect(textsOutside(scene)).toEqual([]);
          expect(JSON.stringify(scene)).not.toContain('NaN');
        },
      ),
      { numRuns: 60 },
    );
  });

  it('lists each step of the tablet with what it is off, and which took no part', () => {
    const { table, description } = layoutScanResponse(input(600, [0.05, 1, 2]));
    expect(table.rows).toEqual([
      ['1', '0.05', '0.073', 'left out'],
      ['2', '1.00', '0.500', '+0.004'],
      ['3', '2.00', '0.950', '+0.004'],
    ]);
    expect(description).toContain('by 0.004 of density; 2 steps');
  });
});
